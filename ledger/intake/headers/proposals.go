package headers

import (
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
)

// Reject takes lines that are not to be proposed.
func (r *Reader) Reject(lines []settings.Proposal) { r.rejected = lines }

// Rejects says that a line is not to be proposed.
func (r *Reader) Rejects(section, line string) bool {
	return slices.ContainsFunc(r.rejected, func(p settings.Proposal) bool {
		return p.Section == section &&
			p.Line == line
	})
}

// rejectsColumn says that a header is not to be proposed as a column.
func (r *Reader) rejectsColumn(table, header, field string) bool {
	return r.Rejects(settings.ColumnsSection(table), columnLine(header, field))
}

// columnLine is the line that has a header read as a column.
func columnLine(header, field string) string {
	return fmt.Sprintf("%s = %s", settings.TomlText(header), settings.TomlText(field))
}

// Propose adds a proposal. It says whether a message may name the line: one that
// was rejected may not.
func (r *Reader) Propose(section, line string, at fault.Place) bool {
	if r.Rejects(section, line) {
		return false
	}
	r.Proposals = append(r.Proposals, settings.Proposal{Section: section, Line: line, Place: at})
	return true
}

// Tell is Propose for a line that only a message names, as one of several things
// that may be meant: it is tried like a proposal, and stands in no block to paste.
func (r *Reader) Tell(section, line string, at fault.Place) bool {
	if r.Rejects(section, line) {
		return false
	}
	r.Told = append(r.Told, settings.Proposal{Section: section, Line: line, Place: at})
	return true
}

// tellColumn is Tell for a header that may be a column.
func (r *Reader) tellColumn(table, header, field string, at fault.Place) bool {
	return r.Tell(settings.ColumnsSection(table), columnLine(header, field), at)
}

// proposeColumn proposes that a header is read as a column; ok is false where the
// line was rejected.
func (r *Reader) proposeColumn(table, header, field string, at fault.Place) (line string, ok bool) {
	line = columnLine(header, field)
	return line, r.Propose(settings.ColumnsSection(table), line, at)
}

// NoteUnusedSettings notes lines of [sheets] and [columns.TABLE] that name a
// sheet or column that is not there: a slip of the pen, or a name since changed.
func (r *Reader) NoteUnusedSettings(text string) {
	at := func(key string) fault.Place { return settings.Place(text, key) }
	say := func(name, what string) {
		r.problems.Add(fault.Problem{Code: fault.CodeSettingUnused, Note: true, Place: at(name), Found: name,
			Why: fmt.Sprintf("There is no %s of this name in the records, so the line does nothing.", what),
			Fix: "If its name has changed, type the new one; if not, take the line out."})
	}
	for _, name := range slices.Sorted(maps.Keys(r.settings.Sheets)) {
		if !r.seenSheets[settings.SheetKey(name)] {
			say(name, "sheet or file")
		}
	}
	for _, table := range slices.Sorted(maps.Keys(r.settings.Columns)) {
		for _, header := range slices.Sorted(maps.Keys(r.settings.Columns[table])) {
			if r.tables[table] && !r.seenHeaders[table+" "+settings.HeaderKey(header)] {
				say(header, "column")
			}
		}
	}
}
