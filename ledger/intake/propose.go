package intake

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
)

// NoTable is what [sheets] and [columns.TABLE] of settings.toml map a sheet or
// a column to that is not to be read: "Notes to self" = "none".
const NoTable = "none"

// Proposal is a line for settings.toml that would put problems right, ready to
// be pasted. It is told and never acted on: only the owner knows what is meant.
type Proposal struct {
	Section string      `json:"section,omitempty"` // sheets, columns.sales; empty: above all sections
	Line    string      `json:"line"`              // "Hrs" = "hours"
	Place   fault.Place `json:"place"`             // what made it be proposed
}

// propose adds a proposal.
func (r *Reader) propose(section, line string, at fault.Place) {
	r.proposals = append(r.proposals, Proposal{section, line, at})
}

// proposeColumn proposes that a header is read as a column.
func (r *Reader) proposeColumn(table, header, field string, at fault.Place) string {
	line := fmt.Sprintf("%s = %s", tomlText(header), tomlText(field))
	r.propose(columnsSection(table), line, at)
	return line
}

// columnsSection is the section of a table's columns.
func columnsSection(table string) string { return "columns." + settingsKey(table) }

// sortedProposals are the proposals, each line once: the file's own order,
// which is settings above sections, then by section, then by line.
func (r *Reader) sortedProposals() []Proposal {
	out := slices.Clone(r.proposals)
	slices.SortStableFunc(out, func(a, b Proposal) int {
		return cmp.Or(cmp.Compare(a.Section, b.Section), cmp.Compare(a.Line, b.Line), a.Place.Compare(b.Place))
	})
	return slices.CompactFunc(out, func(a, b Proposal) bool { return a.Section == b.Section && a.Line == b.Line })
}

// SettingsLines are the proposals as one block to paste into settings.toml:
// the whole of it where there is none yet. Lines that begin with # say where
// what follows them goes in a file that is there; settings.toml reads over
// them. Empty where nothing is proposed.
func (r *Result) SettingsLines() []string {
	var out []string
	section := ""
	for i, p := range r.Proposals {
		switch {
		case i == 0 && p.Section == "":
			out = append(out, "# Above all lines in [brackets]; a line of the same name is replaced:")
		case p.Section != section && r.sections[p.Section]:
			out = append(out, fmt.Sprintf("# Below the line [%s] that is there:", p.Section))
		case p.Section != section:
			out = append(out, fmt.Sprintf("[%s]", p.Section))
		}
		section = p.Section
		out = append(out, p.Line)
	}
	return out
}

// tomlText is a text in quotation marks as settings.toml reads it.
func tomlText(s string) string {
	if strings.ContainsAny(s, `"\`) && !strings.Contains(s, "'") && !strings.ContainsFunc(s, control) {
		return "'" + s + "'"
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case control(c):
			fmt.Fprintf(&b, `\u%04X`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// control says that a character cannot stand as it is.
func control(c rune) bool { return c < ' ' || c == 0x7f }

// sectionsOf are the keys and sections that a settings.toml has already.
func sectionsOf(values map[string]any) map[string]bool {
	out := map[string]bool{}
	for key, v := range values {
		table, is := v.(map[string]any)
		if key != "columns" || !is {
			out[key] = true
			continue
		}
		for name := range table {
			out[columnsSection(strings.ToLower(name))] = true
		}
	}
	return out
}

// noteUnusedSettings notes lines of [sheets] and [columns.TABLE] that name a
// sheet or column that is not there: a slip of the pen, or a name since changed.
func (r *Reader) noteUnusedSettings(text string) {
	at := func(key string) fault.Place { return settingPlace(text, key) }
	say := func(name, what string) {
		r.problems.Add(fault.Problem{Code: fault.CodeSettingUnused, Note: true, Place: at(name), Found: name,
			Why: fmt.Sprintf("There is no %s of this name in the records, so the line does nothing.", what),
			Fix: "If its name has changed, type the new one; if not, take the line out."})
	}
	for _, name := range slices.Sorted(maps.Keys(r.settings.Sheets)) {
		if !r.seenSheets[sheetKey(name)] {
			say(name, "sheet or file")
		}
	}
	for _, table := range slices.Sorted(maps.Keys(r.settings.Columns)) {
		for _, header := range slices.Sorted(maps.Keys(r.settings.Columns[table])) {
			if r.tables[table] && !r.seenHeaders[table+" "+headerKey(header)] {
				say(header, "column")
			}
		}
	}
}
