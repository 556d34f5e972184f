# Needs make, and Python 3.11 or newer with pip and venv. Uses uv instead of pip where uv is on PATH.
# `make PYTHON=/some/python test` picks another interpreter; `make lock UPGRADE=1` also takes newer releases.

.DEFAULT_GOAL := help
.NOTPARALLEL:
.PHONY: help demo run test check format docs texts bench lock clean

NEW_ENOUGH := import sys, ensurepip, venv; sys.exit(sys.version_info < (3, 11))
PYTHON ?= $(shell for name in python3.11 python3 python; do \
	"$$name" -c '$(NEW_ENOUGH)' >/dev/null 2>&1 && echo "$$name" && break; done)
UV := $(shell command -v uv 2>/dev/null)
BIN := .venv/bin

PIP_INSTALL := $(BIN)/python -m pip install --quiet --disable-pip-version-check
UV_INSTALL := "$(UV)" pip install --quiet --python $(BIN)/python
# A machine may have told only pip where its packages come from; the hashes hold either way.
install = $(if $(UV),$(UV_INSTALL) $(1) || { echo "uv could not; trying pip"; $(PIP_INSTALL) $(1); },$(PIP_INSTALL) $(1))

help:
	@echo "make demo    work out the demo jobs; drawings and JSON go to demo-out/"
	@echo "make run     open the demo shop in the browser (http://127.0.0.1:8040/)"
	@echo "make test    run every test, the fast ones first"
	@echo "make check   style, types, floors, generated pages"
	@echo "make format  put the code into shape"
	@echo "make docs    write the generated pages under docs/ again"
	@echo "make texts   collect every text of the program into the catalogues of the languages"
	@echo "make bench   time what has to be quick"
	@echo "make lock    resolve the requirements again (needs uv)"
	@echo "make clean   remove everything that can be made again"

demo: .venv/run.stamp
	$(BIN)/hubwright demo

run: .venv/run.stamp
	$(BIN)/hubwright serve --demo

test: .venv/dev.stamp
	$(BIN)/python -m pytest

check: .venv/dev.stamp
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-logo
	$(BIN)/python docs/generate.py --check

format: .venv/dev.stamp
	$(BIN)/ruff check --fix-only --exit-zero .
	$(BIN)/ruff format .

docs: .venv/dev.stamp
	$(BIN)/python docs/generate.py

texts: .venv/dev.stamp
	$(BIN)/python -m hubwright.language.collect

bench: .venv/dev.stamp
	@ls benchmarks/bench_*.py >/dev/null 2>&1 || { echo "There is no benchmarks/bench_*.py to run."; exit 1; }
	@for script in benchmarks/bench_*.py; do echo "== $$script"; PYTHONPATH=. $(BIN)/python "$$script" || exit 1; done

lock:
	@test -n "$(UV)" || { echo "make lock needs uv on PATH (the other targets do not)."; exit 1; }
	$(lock_one) --group build --output-file requirements/run.txt
	$(lock_one) --group build --group dev --constraints requirements/run.txt --output-file requirements/dev.txt

lock_one = "$(UV)" pip compile pyproject.toml --quiet --universal --python-version 3.11 --generate-hashes \
	--no-emit-index-url --custom-compile-command "make lock" $(if $(UPGRADE),--upgrade)

clean:
	rm -rf .venv .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache .coverage htmlcov dist demo-out
	find src tests docs benchmarks -name __pycache__ -type d -prune -exec rm -rf {} + 2>/dev/null || true

.venv/made.stamp:
	@test -n "$(PYTHON)" || { echo "Wanted Python 3.11 or newer with venv on PATH; found none. Try make PYTHON=..."; exit 1; }
	@"$(PYTHON)" -c '$(NEW_ENOUGH)' || { echo "$(PYTHON) is older than Python 3.11 or has no venv."; exit 1; }
	@echo "Making .venv with $(PYTHON)"
	@"$(PYTHON)" -m venv --clear .venv
	@touch $@

.venv/run.stamp: .venv/made.stamp requirements/run.txt pyproject.toml
	@echo "Installing what the program needs (requirements/run.txt)"
	@$(call install,--require-hashes -r requirements/run.txt)
	@$(call install,--no-deps --no-build-isolation -e .)
	@touch $@

# The development set holds the run set with the same versions, so it brings that one up to date as well.
.venv/dev.stamp: .venv/made.stamp requirements/dev.txt pyproject.toml
	@echo "Installing what the program and its tests need (requirements/dev.txt)"
	@$(call install,--require-hashes -r requirements/dev.txt)
	@$(call install,--no-deps --no-build-isolation -e .)
	@touch .venv/run.stamp $@
