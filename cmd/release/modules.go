package main

import (
	"bytes"
	"debug/buildinfo"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// module is a Go module inside the programs.
type module struct {
	path, version, sum string
	licences           []string // SPDX identifiers
	texts              []string
}

// standardLibrary is how the list names what comes with Go itself.
const standardLibrary = "std"

// addModules adds those that the linker has noted in a program.
func addModules(all map[string]module, program string) error {
	info, err := buildinfo.ReadFile(program)
	if err != nil {
		return err
	}
	for _, d := range info.Deps {
		if d.Replace != nil {
			d = d.Replace
		}
		all[d.Path] = module{path: d.Path, version: d.Version, sum: d.Sum}
	}
	all[standardLibrary] = module{path: standardLibrary, version: strings.TrimPrefix(info.GoVersion, "go")}
	return nil
}

// inside is the modules by name, with their licences. A module whose licence is
// not known is an error: nothing is handed out without one.
func inside(all map[string]module) ([]module, error) {
	var out []module
	for _, m := range all {
		dir, err := dirOf(m)
		if err != nil {
			return nil, err
		}
		if m.licences, m.texts, err = licencesIn(dir); err != nil {
			return nil, fmt.Errorf("%s: %w", m.path, err)
		}
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b module) int { return strings.Compare(a.path, b.path) })
	return out, nil
}

func dirOf(m module) (string, error) {
	if m.path == standardLibrary {
		return run("env", "GOROOT")
	}
	return run("list", "-m", "-f", "{{.Dir}}", m.path)
}

// known are licences by words that only their texts have, as SPDX names them.
var known = []struct{ id, words string }{
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy"},
	{"BSD-3-Clause", "Neither the name of"},
	{"Apache-2.0", "Apache License Version 2.0"},
	{"OFL-1.1", "SIL OPEN FONT LICENSE Version 1.1"},
}

// licencesIn reads the licences of a folder.
func licencesIn(dir string) (ids, texts []string, err error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		if e.IsDir() || !strings.Contains(name, "LICEN") && !strings.HasPrefix(name, "COPYING") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return nil, nil, err
		}
		found := licencesOf(string(text))
		if len(found) == 0 {
			return nil, nil, fmt.Errorf("the licence in %s is of no known kind", e.Name())
		}
		ids, texts = append(ids, found...), append(texts, string(text))
	}
	slices.Sort(ids)
	if ids = slices.Compact(ids); len(ids) == 0 {
		return nil, nil, fmt.Errorf("there is no licence in its folder")
	}
	return ids, texts, nil
}

// licencesOf is the licences that a text holds.
func licencesOf(text string) (ids []string) {
	text = strings.Join(strings.Fields(text), " ")
	for _, k := range known {
		if strings.Contains(text, k.words) {
			ids = append(ids, k.id)
		}
	}
	return ids
}

// modulesText is the list of what is inside, for people.
func modulesText(version string, list []module) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "piecebook %s (MIT) is made with these modules.\n\n", version)
	for _, m := range list {
		fmt.Fprintf(&b, "%-40s %-45s %s\n", m.path, m.version, strings.Join(m.licences, ", "))
	}
	return b.Bytes()
}

// licenceTexts is all licences word for word, as they ask for.
func licenceTexts(list []module) []byte {
	var b bytes.Buffer
	for _, m := range list {
		for _, text := range m.texts {
			fmt.Fprintf(&b, "==== %s %s\n\n%s\n\n", m.path, m.version, strings.TrimSpace(text))
		}
	}
	return b.Bytes()
}
