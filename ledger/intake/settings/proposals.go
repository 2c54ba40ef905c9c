package settings

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
)

// Proposal is a line for settings.toml that would put problems right, ready to
// be pasted. It is reported and never acted on unasked: only the owner knows what is
// meant.
type Proposal struct {
	Section string      `json:"section,omitempty"` // sheets, columns.sales; empty: above all sections
	Line    string      `json:"line"`              // "Hrs" = "hours"
	Place   fault.Place `json:"place"`             // what made it be proposed
}

// SortedProposals are proposals, each line once: the file's own order, which is
// settings above sections, then by section, then by line.
func SortedProposals(proposals []Proposal) []Proposal {
	out := slices.Clone(proposals)
	slices.SortStableFunc(out, func(a, b Proposal) int {
		return cmp.Or(cmp.Compare(a.Section, b.Section), cmp.Compare(a.Line, b.Line), a.Place.Compare(b.Place))
	})
	return slices.CompactFunc(out, func(a, b Proposal) bool { return a.Section == b.Section && a.Line == b.Line })
}

// ProposalLines are proposals as one block to paste into settings.toml: the whole
// of it where there is none yet. Lines that begin with # say where what follows
// them goes in a file that has these sections already; settings.toml ignores
// them. Empty where nothing is proposed.
func ProposalLines(proposals []Proposal, sections map[string]bool) []string {
	var out []string
	section := ""
	for i, p := range proposals {
		switch {
		case i == 0 && p.Section == "":
			out = append(out, "# Above all lines in [brackets]; a line of the same name is replaced:")
		case p.Section != section && sections[p.Section]:
			out = append(out, fmt.Sprintf("# Below the line [%s] that is there:", p.Section))
		case p.Section != section:
			out = append(out, fmt.Sprintf("[%s]", p.Section))
		}
		section = p.Section
		out = append(out, p.Line)
	}
	return out
}

// withLines is what settings.toml says with lines pasted below their sections.
func withLines(values map[string]any, pasted []Proposal) map[string]any {
	if values == nil {
		values = map[string]any{}
	}
	for _, p := range pasted {
		text := p.Line
		if p.Section != "" {
			text = "[" + p.Section + "]\n" + p.Line
		}
		var one map[string]any
		if _, err := toml.Decode(text, &one); err == nil {
			merge(values, one)
		}
	}
	return values
}

// merge puts what one table says into another, tables within it too.
func merge(into, from map[string]any) {
	for key, v := range from {
		table, isTable := v.(map[string]any)
		own, has := into[key].(map[string]any)
		if isTable && has {
			merge(own, table)
			continue
		}
		into[key] = v
	}
}

// Written is the text of a settings.toml with lines in it: each below its section,
// in place of the line of the same name. ok is false where the text cannot be read,
// or would then say anything else than with the lines pasted.
func Written(text []byte, proposals []Proposal) (out string, ok bool) {
	out, _, _ = sheets.Decode(text)
	var before, after map[string]any
	if _, err := toml.Decode(out, &before); err != nil {
		return "", false
	}
	var lines []string
	if out = strings.TrimRight(out, "\r\n"); out != "" {
		lines = strings.Split(out, "\n")
	}
	for _, p := range proposals {
		lines = put(lines, p)
	}
	out = strings.Join(lines, "\n") + "\n"
	_, err := toml.Decode(out, &after)
	return out, err == nil && reflect.DeepEqual(withLines(before, proposals), after)
}

// put is the lines of a settings.toml with one more.
func put(lines []string, p Proposal) []string {
	section := func(line string) (name string, is bool) {
		line, is = strings.CutPrefix(strings.TrimSpace(line), "[")
		name, _, _ = strings.Cut(line, "]")
		return name, is
	}
	key, _, _ := strings.Cut(p.Line, " = ")
	from := 0
	if p.Section != "" {
		from = 1 + slices.IndexFunc(lines, func(l string) bool {
			name, is := section(l)
			return is && name == p.Section
		})
		if from == 0 {
			if len(lines) > 0 {
				lines = append(lines, "")
			}
			return append(lines, "["+p.Section+"]", p.Line)
		}
	}
	for i := from; i < len(lines); i++ {
		if _, next := section(lines[i]); next {
			break
		}
		if name, _, is := strings.Cut(lines[i], "="); is && strings.TrimSpace(name) == key {
			lines[i] = p.Line
			return lines
		}
	}
	return slices.Insert(lines, from, p.Line)
}
