"""The one place that strings the steps together: load, schema, entry and catalogue rules, derive, render."""

from mullbook.text.problem import Problem
from mullbook.workflow.checking import Loaded, check, check_path
from mullbook.workflow.folders import Roots, entry_files
from mullbook.workflow.live import Live
from mullbook.workflow.making import Once, in_words, made, parted, reported
from mullbook.workflow.questions import explain, find, work, working_json
from mullbook.workflow.site import finish_site, missing_files, site_files, write_files
from mullbook.workflow.swap import NotBuilt, Refused, built_beside

__all__ = [
    "Live",
    "Loaded",
    "NotBuilt",
    "Once",
    "Problem",
    "Refused",
    "Roots",
    "built_beside",
    "check",
    "check_path",
    "entry_files",
    "explain",
    "find",
    "finish_site",
    "in_words",
    "made",
    "missing_files",
    "parted",
    "reported",
    "site_files",
    "work",
    "working_json",
    "write_files",
]
