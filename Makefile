# Two commands do it all on a fresh machine: `make site`, `make test`.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/ready

.PHONY: site test bench offline audit serve check wall-guide what-if lint lock fuzz clean

site: $(READY)
	$(BIN)/gaswright build

test: $(READY)
	$(BIN)/python -m pytest --numprocesses auto --dist worksteal --durations 25 --durations-min 5

# One file for a stick, into build/: all plants, or one with PLANT=shed.
PLANT ?=
offline: $(READY)
	$(BIN)/gaswright offline $(PLANT)

# What takes too long for every change: each page of the site before axe-core and a strict parser.
audit: site
	$(BIN)/python -m tests.site.audit site

serve: $(READY)
	$(BIN)/gaswright serve

check: $(READY)
	@for plant in docs/designs/*/; do $(BIN)/gaswright check $$plant || exit 1; done

# The sheets that hang beside each plant, A3 and A4, into build/; UNITS=us or si for other units.
UNITS ?= workshop
wall-guide: $(READY)
	@failed=0; for plant in docs/designs/*/; do for paper in a3 a4; do \
		$(BIN)/gaswright wall-guide $$plant --paper $$paper --units $(UNITS) \
			--out build/$$(basename $$plant)-wall-guide-$$paper-$(UNITS).pdf || failed=1; done; done; exit $$failed

# The points that each plant's overview explores, computed anew and kept; a build computes only what is not kept.
what-if: $(READY)
	@for plant in docs/designs/*/; do $(BIN)/gaswright what-if $$plant || exit 1; done

# What computing costs beside plain pages, and what single computations do; a table into build/.
bench: $(READY)
	$(BIN)/python -m tests.benchmarks

lint: $(READY)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

# Pins for Linux, macOS and Windows and for every Python we support, with hashes and without addresses.
lock: $(READY)
	$(BIN)/python -m pip install --quiet uv
	$(BIN)/uv pip compile pyproject.toml --extra test --universal --python-version 3.11 --generate-hashes \
		--no-emit-index-url --no-emit-find-links --no-header --no-annotate --quiet --output-file requirements.txt
	for system in linux macos windows; do for version in 3.11 3.14; do \
		$(BIN)/uv pip compile requirements.txt --python-platform $$system --python-version $$version \
			--only-binary :all: --no-binary psychrolib --no-header --quiet > /dev/null || exit 1; done; done

# Feeds the readers of what strangers send for a while, guided by coverage; needs a library of its own, for Linux.
FUZZ_SECONDS ?= 300
fuzz: $(READY)
	$(BIN)/python -m pip install --quiet --require-hashes --requirement requirements-fuzz.txt
	for target in quantities yaml page network; do $(BIN)/python -m tests.fuzz $$target $(FUZZ_SECONDS) || exit 1; done

# What was kept of former builds goes too; it stands in the user's folder of caches, or where GASWRIGHT_CACHE says.
clean:
	if [ -x $(BIN)/python ]; then $(BIN)/python -c "from macros.quantities import store; store.clear()"; fi
	rm -rf site .cache build *.egg-info

# Pins are installed with their hashes checked; the project itself is linked in, so that an edit counts at once.
$(READY): requirements.txt pyproject.toml
	$(PYTHON) -c 'import sys; sys.exit(0 if (3, 11) <= sys.version_info < (3, 15) else "Gaswright needs Python 3.11 to 3.14")'
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes --requirement requirements.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	touch $(READY)
