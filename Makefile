# piecebook: `make month` builds and makes the sample's last month's pack in
# out/; `make test` runs every test. Nothing but Go and make is needed.

GO ?= go
# One build without cgo for all targets: nothing but Go is needed, and build and
# tests share what is compiled.
export CGO_ENABLED := 0
BIN := bin/piecebook

.PHONY: build month picture test check release bench calibrate clean

build:
	$(GO) build -o $(BIN) ./cmd/piecebook

month: build
	$(BIN) --books sample --out out month
	@echo "Look at out/: month.html, month.pdf, pieces.pdf, month.xlsx, figures.json"

# README's picture: the tops of two of the sample's pages as they are now. Takes
# poppler's pdftoppm and ImageMagick.
picture: month
	pdftoppm -png -r 144 -l 1 -x 106 -y 104 -W 1012 -H 874 -singlefile "$$(ls -d out/2*/ | tail -1)month.pdf" out/top-1
	pdftoppm -png -r 144 -l 1 -x 106 -y 104 -W 1012 -H 874 -singlefile "$$(ls -d out/2*/ | tail -1)pieces.pdf" out/top-2
	montage out/top-1.png out/top-2.png -tile 2x1 -geometry +6+0 -background '#999' -strip -colors 128 \
		-define png:exclude-chunks=date,time PNG8:sample/pages.png

test:
	$(GO) test -timeout 30m ./...

# What a change must pass before it is pushed; leaves the tree as it found it.
check:
	@test -z "$$(gofmt -l cmd ledger report templates sample)" || { gofmt -l cmd ledger report templates sample; echo 'not gofmt-ed'; exit 1; }
	$(GO) vet ./...
	GOOS=windows $(GO) vet ./cmd/...
	GOOS=darwin $(GO) vet ./cmd/...
	$(GO) tool staticcheck ./...
	$(GO) test -timeout 30m ./...
	$(GO) mod tidy -diff
	@test -z "$$(git status --porcelain)" || { git status --short; echo 'the tree is not clean'; exit 1; }

# The programs to download, in dist/: the same commit gives the same bytes.
release:
	SOURCE_DATE_EPOCH=$$(git log -1 --format=%ct) $(GO) run ./cmd/release -out dist \
		-version $$(git describe --tags --always --dirty)

# What each step takes on books of four sizes, beside bare libraries: ten
# minutes and more, on a machine that does nothing else.
bench:
	$(GO) test ./cmd/piecebook/commands -run TestBenchTable -timeout 60m -benchtable $(CURDIR)/ledger/testkit/bigbooks/BENCH.md
	@cat ledger/testkit/bigbooks/BENCH.md

# What kinds and offers are worth, in simulated shops: compared with the golden files.
calibrate:
	$(GO) test ./ledger/statistics ./ledger/offer -run XXX -bench Calibration -benchtime 1x -timeout 120m

clean:
	rm -rf bin out dist
