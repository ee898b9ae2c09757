# Two commands for a fresh machine: `make demo` and `make test`. Everything they install goes into .venv.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
CONSTRAINTS := .ci/constraints.txt
# One fixed moment, so that the demo is the same bytes whenever it is built.
export SOURCE_DATE_EPOCH ?= 1767225600
PIP_INSTALL = $(BIN)/python -m pip install --quiet --disable-pip-version-check -c $(CONSTRAINTS)

.PHONY: demo serve test lint bench fuzz show site_demo site_demo_is_current browser node clean

# Not --quiet: MkDocs then counts no warnings, and --strict lets everything pass.
demo: $(VENV)/ready
	$(BIN)/mkdocs build --strict --clean --site-dir site
	@$(BIN)/python .ci/serve.py site

serve: $(VENV)/ready
	$(BIN)/mkdocs serve

test: $(VENV)/ready-to-test browser node
	$(BIN)/python -m pytest -n 2 --dist loadgroup tests

lint: $(VENV)/ready-to-test
	$(BIN)/ruff format --check generator tests theme .ci
	$(BIN)/ruff check generator tests theme .ci
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(VENV)/ready-to-test
	for bench in tests/bench/bench_*.py; do $(BIN)/python $$bench || exit 1; done

# BLOCKS=20000 for a shorter run, FUZZ="--processes 2 --seed 7" for more.
BLOCKS ?= 1000000
fuzz: $(VENV)/ready-to-test
	$(BIN)/python -m tests.fuzz.run --blocks $(BLOCKS) $(FUZZ)

# What a student sees, as pictures in build/show for people to look at.
show: $(VENV)/ready-to-test browser
	$(BIN)/python -m tests.site.show

site_demo: $(VENV)/ready
	$(BIN)/mkdocs build --strict --clean --site-dir site_demo
	rm -f site_demo/sitemap.xml.gz

site_demo_is_current: $(VENV)/ready
	rm -rf build/site_demo
	$(BIN)/mkdocs build --strict --clean --site-dir build/site_demo
	rm -f build/site_demo/sitemap.xml.gz
	diff -r site_demo build/site_demo

browser:
	@sh .ci/browser

node:
	@sh .ci/node

$(VENV)/ready: pyproject.toml $(CONSTRAINTS)
	@$(PYTHON) -c 'import sys; sys.exit(0 if sys.version_info >= (3, 11) else "Fingerpost needs Python 3.11 or newer; set PYTHON=python3.11, say")'
	$(PYTHON) -m venv $(VENV)
	$(PIP_INSTALL) --editable .
	touch $@

$(VENV)/ready-to-test: $(VENV)/ready
	$(PIP_INSTALL) --editable '.[test,png]'
	touch $@

clean:
	rm -rf $(VENV) build site dist .pytest_cache .mypy_cache .ruff_cache .hypothesis
