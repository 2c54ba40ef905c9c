package settings

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
)

// Proposals gathers the lines that are proposed while the records are read.
type Proposals struct {
	// Proposed are lines to paste; Told are lines that messages name and that are
	// not among them.
	Proposed, Told []Proposal
	// Choices are lines of which one is proposed at a time: which is best shows once they
	// are tried.
	Choices [][]Proposal
	// Rejected are lines that are not to be proposed.
	Rejected []Proposal
}

// Rejects says that a line is not to be proposed.
func (p *Proposals) Rejects(section, line string) bool {
	return slices.ContainsFunc(p.Rejected, func(r Proposal) bool { return r.Section == section && r.Line == line })
}

// RejectsColumn says that a header is not to be proposed as a column.
func (p *Proposals) RejectsColumn(table, header, field string) bool {
	return p.Rejects(ColumnsSection(table), NameLine(header, field))
}

// NameLine is the line that has a name of the owner's read as one of ours: a header
// as a column, a sheet as a table.
func NameLine(name, as string) string {
	return fmt.Sprintf("%s = %s", TomlText(name), TomlText(as))
}

// Propose adds a proposal. It says whether a message may name the line: one that
// was rejected may not.
func (p *Proposals) Propose(section, line string, at fault.Place) bool {
	if p.Rejects(section, line) {
		return false
	}
	p.Proposed = append(p.Proposed, Proposal{Section: section, Line: line, Place: at})
	return true
}

// Tell is Propose for a line that only a message names, as one of several things
// that may be meant: it is tried like a proposal, and stands in no block to paste.
func (p *Proposals) Tell(section, line string, at fault.Place) bool {
	if p.Rejects(section, line) {
		return false
	}
	p.Told = append(p.Told, Proposal{Section: section, Line: line, Place: at})
	return true
}

// Either adds lines for [sheets] of which one is proposed.
func (p *Proposals) Either(lines []string, at fault.Place) {
	var of []Proposal
	for _, line := range lines {
		of = append(of, Proposal{Section: "sheets", Line: line, Place: at})
	}
	p.Choices = append(p.Choices, of)
}

// Unused is the note of a line of settings.toml that names what is not there: a
// sheet, a column. text is the file's.
func Unused(text, section, name, what string) fault.Problem {
	return fault.Problem{Code: fault.CodeSettingUnused, Note: true, Place: placeIn(text, section, name), Found: name,
		Why: fmt.Sprintf("There is no %s of this name in the records, so the line does nothing.", what),
		Fix: "If its name has changed, type the new one; if not, take the line out."}
}

// Put is what to do with a line of settings.toml, within a sentence: `put LINE under
// [SECTION] of settings.toml`.
func Put(section, line string) string {
	if section == "" {
		return fmt.Sprintf("put %s at the top of settings.toml", line)
	}
	return fmt.Sprintf("put %s under [%s] of settings.toml", line, section)
}

// PutColumn is Put for a header that is to be read as a column.
func PutColumn(table, header, field string) string {
	return Put(ColumnsSection(table), NameLine(header, field))
}
