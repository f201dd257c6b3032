# make run      builds the program, proves the first card of the catalogue and draws its templates into out/
# make test     fetches what the tests need and runs every test (under ten minutes on two cores)
# make check    gofmt, vet, staticcheck, the import order, a build for the browser, the race detector
# make race     every test under the race detector (needs a C compiler)
# make bench    every benchmark
# make fuzz     every fuzz target, FUZZTIME each (60s unless said)
# make golden   rewrites the golden files; look at the difference before you keep it
# make release  a static program in bin/

SHELL := /bin/sh
GO ?= go
FUZZTIME ?= 60s
# No part of the program needs C; without it the program is one file that runs on any machine of its kind.
export CGO_ENABLED ?= 0
# A clone that belongs to another user makes git refuse to tell its revision, and the build would stop at that.
BUILD := $(GO) build -buildvcs=false

.PHONY: run build test check fmt vet staticcheck deps wasm race bench fuzz golden release fetch clean

run: build
	bin/foldwright prove forms/harbour-light.card
	bin/foldwright draw forms/harbour-light.card --out out/
	@echo "run: proved forms/harbour-light.card; its templates are in out/"
	@ls out/

build:
	$(BUILD) -o bin/foldwright ./cmd/foldwright

fetch:
	@sh scripts/fetch

test: fetch
	@sh scripts/test

check: fmt vet staticcheck deps wasm race
	@echo "check: all checks passed"

fmt:
	@left=$$(find . -name '*.go' -not -path './node_modules/*' -not -path './page/node_modules/*' -exec gofmt -l {} +); \
	if [ -n "$$left" ]; then echo "check: gofmt would change these files; run gofmt -w on them:"; echo "$$left"; exit 1; fi

vet:
	$(GO) vet ./...

staticcheck:
	$(GO) -C tools build -buildvcs=false -o ../bin/staticcheck honnef.co/go/tools/cmd/staticcheck
	bin/staticcheck ./...

deps:
	$(GO) test -count=1 .

# Everything above the program itself must build for the browser (see deps_test.go).
wasm:
	GOOS=js GOARCH=wasm $(GO) build $$(GOOS=js GOARCH=wasm $(GO) list ./... | grep -v -e '/studio' -e '/cmd/foldwright' -e '/internal/' -e '/drawing/conform' -e '^foldwright$$')

race:
	@command -v $${CC:-gcc} >/dev/null || { echo "race: the race detector needs a C compiler (Debian: apt-get install gcc libc6-dev)"; exit 1; }
	CGO_ENABLED=1 $(GO) test -race -shuffle=on ./...

bench:
	@sh scripts/bench

fuzz:
	@FUZZTIME=$(FUZZTIME) sh scripts/fuzz

golden:
	FOLDWRIGHT_GOLDEN=update $(GO) test -count=1 ./...
	@git status --short -- '*testdata*'

release:
	CGO_ENABLED=0 $(BUILD) -trimpath -ldflags '-s -w' -o bin/foldwright ./cmd/foldwright
	@ls -l bin/foldwright

clean:
	rm -rf bin out
