"""The one place that strings the steps together: load, schema, entry rules, derive, catalogue rules, render."""

from mullbook.text.problem import Problem
from mullbook.workflow.checking import Loaded, Roots, check, check_path, entry_files
from mullbook.workflow.questions import explain, find, work, working_json
from mullbook.workflow.site import site_files, write_files
from mullbook.workflow.swap import built_beside

__all__ = [
    "Loaded",
    "Problem",
    "Roots",
    "built_beside",
    "check",
    "check_path",
    "entry_files",
    "explain",
    "find",
    "site_files",
    "work",
    "working_json",
    "write_files",
]
