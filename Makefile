# All commands of the project. `make` alone lists them.

PY := .venv/bin/python
CHECKED_BROWSER := $(CURDIR)/.venv/browser

# The theme would otherwise announce its end of life at every build.
export NO_MKDOCS_2_WARNING := 1

.DEFAULT_GOAL := help
.PHONY: help site preview test check lint format types layers bench pictures style fonts clean

help: ## list the commands
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/make \1	\2/p' Makefile | expand -t 16

site: .venv/installed ## set up what is needed and build the unit into site/
	.venv/bin/mkdocs build --strict
	@echo "Open $(CURDIR)/site/index.html"

preview: .venv/installed ## serve the unit at http://127.0.0.1:8000/ and follow every edit
	.venv/bin/mkdocs serve --livereload

# The tests start hundreds of processes: each would compile the builder anew where that is not kept.
test: .venv/installed-dev ## set up what is needed, a browser too, and run every test
	$(PY) -m tests.get_browser "$(CHECKED_BROWSER)"
	PATH="$(CHECKED_BROWSER):$$PATH" env -u PYTHONDONTWRITEBYTECODE $(PY) -m pytest -n 2 --dist worksteal

# TESTED=yes leaves out the tests, for whoever has just run them.
check: lint types layers $(if $(TESTED),,test) ## lint, types, layering and tests

lint: .venv/installed-dev ## find faults and stray formatting with ruff
	.venv/bin/ruff check
	.venv/bin/ruff format --check

format: .venv/installed-dev ## format the code
	.venv/bin/ruff check --fix
	.venv/bin/ruff format

types: .venv/installed-dev ## check the types with mypy
	.venv/bin/mypy

layers: .venv/installed-dev ## check that no layer imports a higher one
	.venv/bin/lint-imports

# make bench ONLY=check runs one measurement alone.
bench: .venv/installed-dev ## measure the speed of checking and building, and the memory
	$(PY) -m tests.bench $(if $(ONLY),--only $(ONLY))

pictures: .venv/installed-dev ## photograph every kind of page, narrow and wide, light and dark
	$(PY) -m tests.get_browser "$(CHECKED_BROWSER)"
	PATH="$(CHECKED_BROWSER):$$PATH" $(PY) -m tests.pictures

style: .venv/installed ## build the style page, which shows all parts side by side, into build/style
	STYLE_PAGE=true .venv/bin/mkdocs build --quiet --strict --site-dir build/style
	@echo "Open $(CURDIR)/build/style/style.html"

fonts: .venv/installed-dev ## make the shipped font subsets and their width table again (needs npm)
	$(PY) builder/site/fonts/make_fonts.py
	$(PY) builder/figure/fonts/make_widths.py builder/site/fonts

clean: ## remove what was built; the virtual environment in .venv stays
	rm -rf site build pictures .cache/stepwell *.egg-info .pytest_cache .hypothesis .mypy_cache .ruff_cache
	rm -rf .import_linter_cache .grimp_cache
	find builder tests -name __pycache__ -type d -prune -exec rm -rf {} +

.venv/installed: pyproject.toml constraints.txt .ci/install
	.ci/install .
	touch $@

# The development set holds the other one as well, so that `make site` need not install again.
.venv/installed-dev: pyproject.toml constraints.txt .ci/install
	.ci/install '.[dev]'
	touch .venv/installed $@
