// Command release makes the programs to download: an archive a target, their
// checksums, a list of the modules inside with their licences, and a bill of
// materials (CycloneDX 1.6). The same commit, tag and Go give the same bytes.
//
//	go run ./cmd/release -version v1.2.0 -out dist
package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// target is a system and a processor, as Go and as people call them.
type target struct{ goos, goarch, name string }

var targets = []target{
	{"windows", "amd64", "windows-amd64"}, {"windows", "arm64", "windows-arm64"},
	{"darwin", "amd64", "macos-amd64"}, {"darwin", "arm64", "macos-arm64"},
	{"linux", "amd64", "linux-amd64"}, {"linux", "arm64", "linux-arm64"},
}

func main() {
	version := flag.String("version", "", "the version, from the tag")
	out := flag.String("out", "dist", "the folder to write to")
	only := flag.String("only", "", "only this target, such as linux-amd64")
	flag.Parse()
	if err := release(*version, *out, *only); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// release builds all targets, or one, and writes what goes with them.
func release(version, out, only string) error {
	if version == "" {
		return fmt.Errorf("no version was given, as in -version v1.2.0")
	}
	stamp, err := stampOf(os.Getenv("SOURCE_DATE_EPOCH"))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	work, err := os.MkdirTemp("", "release")
	if err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(work) }()
	modules := map[string]module{}
	programs := map[target]string{}
	for _, t := range targets {
		if only != "" && t.name != only {
			continue
		}
		program := filepath.Join(work, t.name, t.program())
		if err := build(t, version, program); err != nil {
			return err
		}
		if err := addModules(modules, program); err != nil {
			return err
		}
		programs[t] = program
	}
	list, err := inside(modules)
	if err != nil {
		return err
	}
	files := map[string][]byte{"modules.txt": modulesText(version, list)}
	if files["piecebook.cdx.json"], err = billOfMaterials(version, stamp, list); err != nil {
		return err
	}
	for t, program := range programs {
		if files["piecebook-"+t.name+".zip"], err = t.archive(program, stamp, list); err != nil {
			return err
		}
	}
	files["SHA256SUMS"] = checksums(files)
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(out, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// stampOf is the time in the archives: whole seconds since 1970, as
// SOURCE_DATE_EPOCH gives them (reproducible-builds.org), else 1980, where the
// times of zip archives begin.
func stampOf(text string) (time.Time, error) {
	if text == "" {
		return time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC), nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH is %q, no number of seconds", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// program is the program's file name.
func (t target) program() string {
	if t.goos == "windows" {
		return "piecebook.exe"
	}
	return "piecebook"
}

// build compiles the program. Neither folders of this machine nor the state of
// its checkout are in it.
func build(t target, version, program string) error {
	c := exec.CommandContext(context.Background(), "go", "build", "-trimpath", "-buildvcs=false", "-mod=readonly",
		"-ldflags", "-s -w -buildid= -X piecebook/cmd/piecebook/cli.release="+version, "-o", program, "./cmd/piecebook")
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+t.goos, "GOARCH="+t.goarch, "GOAMD64=v1", "GOARM64=v8.0",
		"GOFLAGS=", "GOEXPERIMENT=")
	if said, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("building %s: %w\n%s", t.name, err, said)
	}
	return nil
}

// checksums is a line a file, as sha256sum writes and checks them.
func checksums(files map[string][]byte) []byte {
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	var b bytes.Buffer
	for _, name := range names {
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(files[name]), name)
	}
	return b.Bytes()
}

// run is what a command of Go prints.
func run(args ...string) (string, error) {
	out, err := exec.CommandContext(context.Background(), "go", args...).Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w", strings.Join(args, " "), err)
	}
	return strings.TrimSpace(string(out)), nil
}
