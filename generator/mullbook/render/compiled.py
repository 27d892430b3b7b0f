"""Templates as compiled, so that a program that makes pages again and again compiles each only once."""

from __future__ import annotations

from jinja2 import BytecodeCache
from jinja2.bccache import Bucket


class Compiled(BytecodeCache):
    """Holds compiled templates for as long as the program runs; one whose text changed is compiled anew."""

    def __init__(self) -> None:
        self._held: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give a template what was compiled, if it was."""
        if bucket.key in self._held:
            bucket.bytecode_from_string(self._held[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Hold what was compiled."""
        self._held[bucket.key] = bucket.bytecode_to_string()


COMPILED = Compiled()
