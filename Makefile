# One word for each chore, the same here and in CI. Needs Python 3.11 or newer, git and make; all the
# rest goes into the folder .venv, from the pinned and hashed lists in requirements/.

PYTHON ?= python3
BIN := .venv/bin
STAMPS := .venv/stamps
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet
CODE := $(wildcard src tests bench scripts)

# Hashes and no addresses; one list for every machine and every Python from 3.11 on.
COMPILE := build/pins/bin/uv pip compile pyproject.toml --quiet --universal --python-version 3.11 \
	--generate-hashes --no-annotate --no-config --custom-compile-command 'make pins'

.DEFAULT_GOAL := help
.DELETE_ON_ERROR:
.NOTPARALLEL:
.PHONY: help install start test lint format types contract check bench docs wheel pure pins clean

help:  ## say what each word does
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/^([a-z]+):.*## /\1\t/' | expand -t 12

install: $(STAMPS)/dev $(STAMPS)/project  ## everything for working on Crankwise, into .venv

start: $(STAMPS)/run $(STAMPS)/project  ## set up what running needs and start the web app with the demo workshop
	$(BIN)/crankwise serve --demo$(if $(PORT), --port $(PORT))

test: install  ## all tests, the browser ones included
	$(BIN)/python -m pytest --cov --cov-report=term

lint: install  ## style and likely mistakes
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

format: install  ## mend what lint can mend by itself
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .

types: install  ## strict types, tests and bench too
	$(BIN)/mypy $(CODE)

contract: install  ## the floors: who may import whom
	$(BIN)/lint-imports

check: lint types contract  ## lint, types and contract

bench: install  ## speeds, as ratios within one run
	$(BIN)/python -m bench

docs: install  ## make the command pages again from --help
	$(BIN)/python scripts/make_cli_pages.py

wheel: install  ## build the package into dist/
	rm -rf dist
	$(PIP) wheel --no-deps --no-build-isolation --wheel-dir dist .

# The compiler is put out of reach (CC=false): one dependency then builds its pure form. No cache, or an
# earlier compiled build could be taken instead.
pure: wheel  ## install the base package with nothing compiled into an empty place and use it
	rm -rf build/pure
	CC=false $(PIP) wheel --no-cache-dir --no-build-isolation --require-hashes --no-binary markupsafe \
		--wheel-dir build/pure/wheels -r requirements/base.txt
	$(BIN)/python -m venv build/pure/venv
	build/pure/venv/bin/python -m pip --disable-pip-version-check --quiet install --no-index --no-deps \
		build/pure/wheels/*.whl dist/*.whl
	build/pure/venv/bin/python -m pip check
	build/pure/venv/bin/python -I tests/pure/pure_python_check.py

pins:  ## choose the newest versions again and write requirements/
	$(PYTHON) -m venv build/pins
	build/pins/bin/python -m pip --disable-pip-version-check --quiet install uv==0.13.9
	$(COMPILE) --upgrade --group dev --group build --extra paper --extra accuracy --extra dxf -o requirements/dev.txt
	$(COMPILE) --group build --extra paper --extra accuracy --extra dxf -c requirements/dev.txt -o requirements/run.txt
	$(COMPILE) -c requirements/dev.txt -o requirements/base.txt

clean:  ## take away all that the chores made
	rm -rf .venv build dist .coverage .hypothesis .mypy_cache .ruff_cache .pytest_cache .import_linter_cache

.venv/pyvenv.cfg:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
		echo 'Crankwise needs Python 3.11 or newer; "$(PYTHON)" is not. Name another: make PYTHON=python3.12 ...' >&2; \
		exit 1; }
	@$(PYTHON) -m venv .venv || { rm -rf .venv; \
		echo 'This Python cannot make virtual environments. On Debian and its kin: apt-get install python3-venv' >&2; \
		exit 1; }

# A stamp says which pins are in .venv: nothing is installed again until they change.
$(STAMPS)/%: requirements/%.txt | .venv/pyvenv.cfg
	@echo 'Installing requirements/$*.txt into .venv'
	$(PIP) install --require-hashes -r $<
	@mkdir -p $(STAMPS) && touch $@

# After either list: both bring the build back end, so nothing is fetched here.
$(STAMPS)/project: pyproject.toml | .venv/pyvenv.cfg
	$(PIP) install --no-deps --no-build-isolation --no-index --editable .
	@mkdir -p $(STAMPS) && touch $@
