package intake

import (
	"fmt"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
)

// unknown tells a name that is in no table: each one that there is something to type
// for, such as the nearest name, and all others of a column together.
func (rec *record) unknown(field, name, what string, space map[string]*owner, code fault.Code, table string) {
	if fix := rec.fixForUnknown(name, what, space, code, table); fix != "" {
		rec.failName(field, name, code, fmt.Sprintf("There is no %s %q.", what, name), fix)
		return
	}
	rec.FailForCause(field, field, code, func(s *rows.Cause) (string, string) {
		fix := fmt.Sprintf("Put %s into %s, or type a name that is there.", fault.Plural(s.Cells, "it", "them"), table)
		if s.Cells == 1 {
			if code == fault.CodePieceUnknown && strings.ContainsAny(strings.TrimSpace(name), " &/") {
				fix += " If it is several pieces, separate them with a semicolon, as in P1; P2."
			}
			return fmt.Sprintf("There is no %s %q.", what, name), fix
		}
		if header := rec.columnOfNames(space); header != "" {
			table := rec.Block.Table.Name
			if rec.r.lines.Propose(settings.ColumnsSection(table), settings.NameLine(header, field), rec.Place(field)) {
				fix = fmt.Sprintf("Names that are there stand under %q: if that is the column that is meant, %s.", header,
					settings.PutColumn(table, header, field))
			}
		}
		return fmt.Sprintf("%d cells of this column name no %s that is there: %s.", s.Cells, what, s.Listed()), fix
	})
}

// columnOfNames is the header of a column that is not read and that holds names of a
// name space in half of its filled cells and more; empty where there is none.
func (rec *record) columnOfNames(space map[string]*owner) string {
	read := map[int]bool{}
	for _, c := range rec.Block.Columns {
		read[c.Index] = true
	}
	for i, header := range rec.Sheet.Lines[0].Cells {
		if read[i] || strings.TrimSpace(header) == "" {
			continue
		}
		filled, known := 0, 0
		for _, other := range rec.r.tables[rec.Block.Table.Name] {
			if text := other.Line.Text(i); other.Sheet == rec.Sheet && text != "" {
				filled++
				if rec.r.lookUp(text, space) != nil {
					known++
				}
			}
		}
		if known > 1 && 2*known >= filled {
			return strings.TrimSpace(header)
		}
	}
	return ""
}

// proposeHoursPieces proposes the column that holds names of pieces, where Hours are on a
// sheet without a column of pieces: without it no piece has hours.
func (r *reading) proposeHoursPieces() {
	seen := map[*sheets.Sheet]bool{}
	for _, rec := range r.tables["hours"] {
		if _, there := rec.Block.Columns["pieces"]; there || seen[rec.Sheet] {
			continue
		}
		seen[rec.Sheet] = true
		header := rec.columnOfNames(r.names.shared)
		at := rec.Sheet.Place()
		at.Row = rec.Sheet.Lines[0].Number
		at = at.At(header)
		if header == "" || !r.lines.Propose(settings.ColumnsSection("hours"), settings.NameLine(header, "pieces"), at) {
			continue
		}
		r.problems.Put(fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at, Found: header,
			Why: "Names of pieces stand here, and this column is not read, so the hours of this sheet are for no piece.",
			Fix: fmt.Sprintf("If it says which piece the hours are for, %s.", settings.PutColumn("hours", header, "pieces"))})
	}
}

// withinWords are the names of a cash book's line: the one piece that its words name,
// which is noted, or else the names that they are.
func (rec *record) withinWords(text string, items []string) []string {
	within := rec.r.piecesWithin(text)
	if len(within) != 1 || len(items) == 1 && rec.r.lookUp(items[0], rec.r.names.shared) != nil {
		return items
	}
	rec.NoteForCause(rec.fieldOf("Pieces"), "within", fault.CodeNameOtherwise, 0, func(s *rows.Cause) (string, string) {
		return fmt.Sprintf("This is read as the piece %s, which these words name.", within[0]) + s.More(),
			"The name may stay. If it is another piece, or more than one, type the names alone."
	})
	return within
}
