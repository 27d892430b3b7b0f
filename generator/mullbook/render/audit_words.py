"""The words of an audit: what is due, what a jar nobody knows goes through, what is signed."""

from __future__ import annotations

from mullbook.derive.audit_results import MISSING, NEVER, OLD, OVERDUE, Audited

RED_LIST = (
    "Leave it shut, and everything that may hold lead, arsenic, mercury, chromate or cadmium as powder, and"
    " any rock or powder nobody knows."
)
QUARANTINE = (
    "Leave it shut. Do not smell, taste, wet or heat it to find out.",
    'Write on the jar: "unknown, do not open", the day, where it stood, who found it.',
    "Put the jar into a second, lidded box. The box is locked away from the shelf, on its own list.",
    "Photograph the label, the lid and the maker's mark through the glass. Ask who worked here before.",
    "A name from an old label is a hint, not an answer: write it into the note, leave the pigment unknown.",
    "A laboratory may look at it: X-ray fluorescence of a sample taken under extraction. Else a licensed"
    " carrier takes it, as unknown.",
    "Write the outcome into the register: the entry it is, the report's number, or the day it left.",
)
"""Common practice; the book's own entry for a jar without a label says the first steps."""
SIGN_OFF = (
    "Every jar was there, shut, and bore its number.",
    "Every jar stood where the register says.",
    "What was overdue was looked at again, or is listed below with a day.",
    "Every data sheet on the list was asked for.",
    "Nothing on the red list was opened since the last look.",
)
LINES = ("Looked at by", "Day", "Signature", "Answers for it", "Signature")
REVIEW_WORDS = {OVERDUE: "overdue", NEVER: "no day set", "due soon": "due soon", "": ""}
SHEET_WORDS = {MISSING: "no data sheet", OLD: "data sheet is old", "": ""}


def flags(jar: Audited) -> str:
    """What somebody has to see to at a jar, in a few words."""
    words = [*jar.red]
    if jar.review:
        due = f" ({jar.review_due})" if jar.review_due else ""
        words.append(f"review {REVIEW_WORDS[jar.review]}{due}")
    if jar.sheet:
        words.append(SHEET_WORDS[jar.sheet])
    if not jar.is_known:
        words.append("quarantine")
    if not jar.listed.is_whole:
        words.append("row cannot be read whole")
    return ", ".join(words)
