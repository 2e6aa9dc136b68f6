# Needs Python 3.11 or newer, git and make; everything else goes into .venv.
# Each step leaves a stamp beside the venv's own files, newer than pyproject.toml: running a target again is quick.
.POSIX:
.PHONY: help demo test check bench site clean

VENV = .venv
BIN = $(VENV)/bin
# Set to the Python to use where the first suitable one on the PATH is not wanted: make test PYTHON=/opt/python/bin/python3
PYTHON =
OUT = out
PIP = $(BIN)/python -m pip --disable-pip-version-check --quiet

help:
	@echo 'make demo    compare the example pairs and write their pages to $(OUT)/'
	@echo 'make test    run all tests'
	@echo 'make check   look over style, types and the order of imports'
	@echo 'make bench   time the alignment on made-up pairs of growing size'
	@echo 'make site    build the web site into $(OUT)/site'
	@echo 'make clean   remove $(VENV)/, $(OUT)/ and every cache'

demo: $(VENV)/.stamp-plain
	$(BIN)/archdiff demo -o $(OUT)

test: $(VENV)/.stamp-test
	$(BIN)/python -m pytest --numprocesses=auto --dist=loadfile

check: $(VENV)/.stamp-check
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy --strict
	$(BIN)/lint-imports

bench: $(VENV)/.stamp-test
	$(BIN)/python benchmarks/alignment.py

site: $(VENV)/.stamp-plain
	$(BIN)/python site/build.py --out $(OUT)/site

clean:
	rm -rf $(VENV) $(OUT) dist build *.egg-info
	rm -rf .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis
	rm -rf tests/editor/.work tests/browser/.work
	find . -name __pycache__ -type d -prune -exec rm -rf {} +

$(VENV)/.stamp-plain: $(VENV)/.stamp-venv pyproject.toml
	$(PIP) install --editable .
	@touch $@

$(VENV)/.stamp-test: $(VENV)/.stamp-venv pyproject.toml
	$(PIP) install --editable '.[test]'
	@touch $@

$(VENV)/.stamp-check: $(VENV)/.stamp-venv pyproject.toml
	$(PIP) install --editable '.[test,check]'
	@touch $@

# A name on the PATH may belong to a program that does not start, so each candidate is run and asked for its version.
# A venv that is already there is asked first, and kept as it is where it serves.
$(VENV)/.stamp-venv:
	@for python in $(BIN)/python $(PYTHON) python3.13 python3.12 python3.11 python3; do \
	  if "$$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then \
	    echo "$(VENV): $$("$$python" --version)"; \
	    test "$$python" = $(BIN)/python || "$$python" -m venv $(VENV) || { \
	      echo 'this Python cannot make a venv; on Debian and Ubuntu: apt install python3-venv' >&2; exit 1; }; \
	    touch $@; exit 0; \
	  fi; \
	done; \
	echo 'archdiff needs Python 3.11 or newer, and none was found on the PATH.' >&2; \
	echo 'Install one, or name it: make PYTHON=/path/to/python3 ...' >&2; \
	exit 1
