# Two commands do everything on a fresh machine: make run and make test.

TAGS := migrated_fynedo
CI   := ci,migrated_fynedo
BUILD_NEEDS := gcc libc6-dev pkg-config libgl-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev
SHOW_NEEDS  := xvfb xauth libgl1-mesa-dri xdotool openbox imagemagick desktop-file-utils shared-mime-info xdg-utils libglib2.0-bin
OUT ?= out
PAPER_NEEDS := poppler-utils qpdf
OUTSIDE_NEEDS := units python3-iapws python3-scipy python3-gsw libimage-exiftool-perl python3-icalendar python3-dateutil postgresql \
	default-jre-headless libpdfbox2-java libcommons-io-java libjaxb-api-java libactivation-java liblcms2-utils
LINT := honnef.co/go/tools/cmd/staticcheck@v0.7.0

.PHONY: run build test check lint unit window drill bench tour clean

# Builds and starts the program. Without a display it walks the whole of First
# fill headless, through the same pages, and writes pictures and the record.
run: build
	@if [ -n "$${DISPLAY:-}$${WAYLAND_DISPLAY:-}" ]; then exec bin/driploop; \
	else echo "No display: walking First fill headless. Pictures and the set-up record go to $(abspath $(OUT))."; \
	exec bin/driploop tour $(OUT); fi

build:
	@sh .ci/need $(BUILD_NEEDS)
	@mkdir -p bin
	go build -tags $(TAGS) -o bin/driploop ./app

# Formatting, vet, lint, all tests, and the window tests under a virtual display
# that they start themselves.
test: check unit window

check:
	@sh .ci/need gcc libc6-dev
	@bad=$$(gofmt -l app screens model assets i18n); [ -z "$$bad" ] || { echo "not formatted:"; echo "$$bad"; exit 1; }
	go vet -tags $(CI) ./...
	go run $(LINT) -tags $(CI) ./...
	GOOS=windows CGO_ENABLED=0 go vet ./model/claim ./model/durable
	GOOS=darwin CGO_ENABLED=0 go vet ./model/claim ./model/durable

unit:
	@sh .ci/need $(PAPER_NEEDS)
	go test -timeout 40m -tags $(CI) ./...
	go test -race -tags $(CI) ./model/keeper ./model/store ./model/durable ./screens/parts

window: build
	@sh .ci/need $(SHOW_NEEDS)
	DRIPLOOP_BIN=$(abspath bin/driploop) go test -tags $(CI),e2e -run Window ./app

# The same drills at the counts of a release; and the calculations, as the program
# answers them, beside those of other programs. It ends with a table of the drills:
# what was tried, how often, how much was lost, and whether it passed.
drill: build
	@sh .ci/need $(OUTSIDE_NEEDS) $(PAPER_NEEDS)
	@command -v npm >/dev/null || sh .ci/need nodejs npm
	@mkdir -p $(OUT) && rm -f $(OUT)/drills.txt
	DRIPLOOP_BIN=$(abspath bin/driploop) DRIPLOOP_DRILL=1 DRIPLOOP_DRILL_LOG=$(abspath $(OUT))/drills.txt go test -count 1 -tags $(CI) -timeout 3h ./model/...; \
	code=$$?; DRIPLOOP_DRILL=1 DRIPLOOP_DRILL_LOG=$(abspath $(OUT))/drills.txt go test -count 1 -tags $(CI) -timeout 3h -run 'Folders|Outside|ProfileIs' ./app ./assets ./screens/paper || code=1; sh .ci/drills $(OUT)/drills.txt; exit $$code

# Ratios beside a reference measured in the same run.
bench: build
	@sh .ci/need python3-scipy libvips-tools sqlite3
	go test -tags $(CI) -run xxx -bench . -benchtime 200ms ./model/... ./screens/...
	@sh .ci/need $(SHOW_NEEDS)
	DRIPLOOP_BIN=$(abspath bin/driploop) go test -tags $(CI),e2e -run xxx -bench Start ./app

tour: build
	bin/driploop tour $(OUT)

clean:
	rm -rf bin out
