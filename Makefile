# Needs Python 3.11 or newer and make; `make demo` is the way in, `make test` the whole check.
.DEFAULT_GOAL := help
VENV := .venv
BIN := $(VENV)/bin
LOCKS := requirements/run.txt requirements/test.txt
COMPILE := $(BIN)/uv pip compile pyproject.toml --generate-hashes --universal --python-version 3.11 \
	--no-header --no-annotate --no-emit-index-url --no-emit-find-links --quiet
PIP := $(BIN)/python -m pip --disable-pip-version-check install --quiet

.PHONY: help demo test lint check-python bench lock format docs clean

help:
	@echo "make demo    fill the invented club, serve it and print the address"
	@echo "make test    format, lint, types, import rules and every test"
	@echo "make lint    the same without the tests"
	@echo "make bench   measure speed"
	@echo "make format  tidy the code"
	@echo "make docs    write docs/ anew from real commands"
	@echo "make lock    pin the newest versions that fit pyproject.toml"
	@echo "make clean   remove what make made"

demo: $(VENV)/run.stamp
	$(BIN)/meetward demo

test: $(VENV)/test.stamp
	tools/test-needs
	$(MAKE) --no-print-directory lint
	$(BIN)/pytest -n 2

lint: $(VENV)/test.stamp
	$(BIN)/ruff format --check
	$(BIN)/ruff check
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(VENV)/test.stamp
	tools/test-needs bench
	$(BIN)/python -m bench

format: $(VENV)/test.stamp
	$(BIN)/ruff format
	$(BIN)/ruff check --fix

docs: $(VENV)/test.stamp
	$(BIN)/python tools/make_docs.py

# The newest versions; remove the old pins first, or uv keeps them.
lock: $(VENV)/test.stamp
	$(COMPILE) --upgrade --extra build -o requirements/run.txt
	$(COMPILE) --upgrade --extra build --extra test -c requirements/run.txt -o requirements/test.txt

clean:
	rm -rf $(VENV) dist build .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis
	find src tests tools bench -name __pycache__ -type d -prune -exec rm -rf {} + 2>/dev/null || true

# A stamp stands for "installed exactly this lock"; nothing is installed without a hash, our own build parts included.
$(VENV)/python.stamp: tools/find-python
	@python="$$(tools/find-python)" && "$$python" -m venv $(VENV)
	@touch $@

$(VENV)/run.stamp: requirements/run.txt pyproject.toml | $(VENV)/python.stamp
	@echo "Installing what Meetward needs into $(VENV) (half a minute, the first time) ..."
	@$(PIP) --require-hashes -r requirements/run.txt
	@$(PIP) --no-deps --no-build-isolation -e .
	@touch $@

$(VENV)/test.stamp: requirements/test.txt $(VENV)/run.stamp
	@echo "Installing what the checks need into $(VENV) ..."
	@$(PIP) --require-hashes -r requirements/test.txt
	@touch $@
