"""The shape of an entry, checked against its JSON Schema."""

from __future__ import annotations

from mullbook.checks.schemas import Schemas, load_schemas
from mullbook.text.problem import Place, Problem, mistake, quoted
from mullbook.text.suggest import nearest
from mullbook.text.yaml_text import Document

__all__ = ["Schemas", "check_shape", "load_schemas"]


def check_shape(document: Document, kind: str, schemas: Schemas) -> list[Problem]:
    """Check an entry against the schema of its kind.

    Parameters: document, as read; kind, such as pigment; schemas. Returns the problems in the order of their
    places; none for a document without data, whose own problems say enough. A crash becomes a problem too.
    """
    if document.data is None:
        return []
    if kind not in schemas:
        close = nearest(kind, schemas.names)
        hint = f"did you mean {' or '.join(close)}?" if close else None
        message = f"there is no schema for the kind {quoted(kind)}"
        return [mistake("MB212", message, Place(document.path), hint)]
    try:
        if schemas.accepts(kind, document.data):
            return []
        from mullbook.checks.shape import shape_problems  # loads slowly; sound entries need none

        return shape_problems(document, kind, schemas)
    except Exception as error:  # whatever it is, the other entries are still to be checked
        fault = type(error).__name__
        message = f"the shape of this entry could not be checked; the fault is the program's ({fault})"
        hint = "report it, with this file"
        return [mistake("MB213", message, Place(document.path), hint)]
