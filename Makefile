# Every target sets up what it needs: Python 3.11 or newer with pip and venv is all that has to be there.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
export PIP_DISABLE_PIP_VERSION_CHECK := 1
export PLAYWRIGHT_BROWSERS_PATH := $(CURDIR)/.cache/browsers

.DEFAULT_GOAL := help
.PHONY: help site serve test check lint bench mutate lock clean

help:
	@echo "make site    build the site into site/ (open site/index.html)"
	@echo "make serve   show the site while entries are edited"
	@echo "make check   check every entry"
	@echo "make test    run all tests, in a browser too where there is one"
	@echo "make lint    ruff and mypy"
	@echo "make bench   measure against the budgets (slow)"
	@echo "make mutate  spoil one safety datum at a time, and see what catches it (slow)"
	@echo "make shots   picture the key states into .cache/shots/"
	@echo "make lock    pin the newest libraries that have settled"
	@echo "make clean   remove what the other targets made"

site: $(VENV)/.ready
	$(BIN)/mullbook build

serve: $(VENV)/.ready
	$(BIN)/mullbook serve

check: $(VENV)/.ready
	$(BIN)/mullbook check

lint: $(VENV)/.ready-for-tests
	$(BIN)/ruff check
	$(BIN)/mypy

test: $(VENV)/.ready-for-tests
	@$(BIN)/python -m tests.browser.chromium
	$(BIN)/python -m pytest -n 2 --dist worksteal

bench: $(VENV)/.ready-for-tests
	@$(BIN)/python -m tests.browser.chromium
	$(BIN)/python -m tests.bench.bench $(BENCH)

mutate: $(VENV)/.ready-for-tests
	$(BIN)/python -m tests.mutation.mutate $(MUTATE)

shots: site $(VENV)/.ready-for-tests
	@$(BIN)/python -m tests.browser.chromium
	$(BIN)/python -m tests.browser.shots

$(VENV)/.ready: requirements.txt pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
	  echo "Mullbook needs Python 3.11 or newer; '$(PYTHON)' is $$($(PYTHON) --version 2>/dev/null || echo missing)."; \
	  echo "Name another one: make $(or $(MAKECMDGOALS),site) PYTHON=python3.12"; exit 1; }
	@test -x $(BIN)/pip || $(PYTHON) -m venv $(VENV) || { \
	  echo "$(PYTHON) could not make a virtual environment (on Debian and Ubuntu: apt install python3-venv)."; \
	  rm -rf $(VENV); exit 1; }
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements.txt
	$(BIN)/python -m pip install --quiet --no-deps --no-build-isolation --editable .
	@touch $@

$(VENV)/.ready-for-tests: $(VENV)/.ready requirements-dev.txt
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements-dev.txt
	@touch $@

# Five days let a broken or withdrawn release be noticed before it is pinned.
LOCK = .cache/lock/bin/uv pip compile --quiet --upgrade --universal --fork-strategy fewest --python-version 3.11 \
  --generate-hashes --exclude-newer "5 days" --custom-compile-command "make lock"
lock:
	test -x .cache/lock/bin/uv || { $(PYTHON) -m venv .cache/lock && .cache/lock/bin/pip install --quiet uv; }
	$(LOCK) --output-file requirements.txt pyproject.toml requirements.in >/dev/null
	$(LOCK) --constraint requirements.txt --output-file requirements-dev.txt --extra test \
	  pyproject.toml requirements.in >/dev/null

clean:
	rm -rf $(VENV) .cache site
