# Short words for long commands; meson and ninja do the work.
#   make demo    installs what is missing, builds, runs the main job on demo/
#   make check   every test, plain and under the sanitizers
SHELL = /bin/sh
BUILD = build
SAN = build-sanitize
PREFIX ?= /usr/local

PICTURES = docs/pages

.PHONY: all demo check check-web pictures check-offline check-slow bench fuzz format lint clean install

all: $(BUILD)/build.ninja
	@ninja -C $(BUILD) --quiet src/cli/foamwright
	@ln -sf src/cli/foamwright $(BUILD)/foamwright

$(BUILD)/build.ninja:
	@sh tools/packages.sh build
	@meson setup $(BUILD) -Dtests=false >$(BUILD).log 2>&1 || { cat $(BUILD).log; exit 1; }
	@rm -f $(BUILD).log

demo: all
	@sh tools/demo.sh $(BUILD)/foamwright

check:
	@sh tools/packages.sh build check
	@sh tools/check.sh $(BUILD) $(SAN)

# The pages in a real browser (Debian's chromium, Node 20 or newer).
check-web: all
	@sh tools/packages.sh web
	@sh tools/check_web.sh $(BUILD)/src/cli/foamwright || [ $$? -eq 77 ]

# Every page as a picture, for docs/pages.md.
pictures: all
	@sh tools/packages.sh web
	@sh tools/check_web.sh $(BUILD)/src/cli/foamwright --pictures $(CURDIR)/$(PICTURES)

# The fast tests again where there is no network but loopback; builds nothing.
check-offline:
	@sh tools/offline.sh meson test -C $(BUILD) --no-rebuild --suite fast --print-errorlogs

check-slow:
	@sh tools/packages.sh build check
	@sh tools/check.sh --slow $(BUILD)

bench: all
	@sh tools/packages.sh build check bench
	@sh bench/run.sh $(BUILD)

fuzz:
	@sh tools/packages.sh build fuzz
	@sh tools/fuzz.sh

format:
	@sh tools/packages.sh lint
	@clang-format-14 -i $$(git ls-files '*.c' '*.h')

lint:
	@sh tools/packages.sh build check lint
	@sh tools/lint.sh $(BUILD)

install: all
	@meson install -C $(BUILD) --no-rebuild

clean:
	rm -rf build build-* demo.book demo.book-journal
