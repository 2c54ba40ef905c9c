package report

import (
	"fmt"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// The anchors of the sections that a month and a year both have.
const (
	TiesAnchor  = "ties"
	NotesAnchor = "notes"
	// StatementAnchor names the income statement.
	StatementAnchor = "statement"
	// PiecesAnchor names the table that leads to all sheets, where there is one.
	PiecesAnchor = "pieces"
)

// TieBlocks are reconciliations under what they are; the first stands on the
// page where that is said.
func TieBlocks(ties []figures.Tie) []page.Block {
	text := page.Paragraph{Text: "Each is one total reached by two ways. The difference is 0.00, or something is wrong " +
		"with the program and its makers want to know. Terms of nothing are left out."}
	if len(ties) == 0 {
		return []page.Block{text}
	}
	out := []page.Block{page.KeepTogether{Blocks: []page.Block{text, tieTable(ties[0])}}}
	for _, tie := range ties[1:] {
		out = append(out, tieTable(tie))
	}
	return out
}

func tieTable(tie figures.Tie) page.Block {
	t := page.Table{Caption: words.Capital(tie.Name), Span: 5, Whole: true, NoHead: true,
		Columns: page.Heads{}.Wide(1, "").Money("")}
	for _, term := range tie.Terms {
		if term.Cents != 0 {
			t.Add(page.Text(words.Term(tie.Name, term)), cells.Money(term.Cents))
		}
	}
	label := "Difference"
	if tie.Difference != 0 {
		label = "Difference: LOOK"
	}
	t.Rows = append(t.Rows, page.Styled(page.Subtotal, page.Text("Together"), cells.Full(tie.Reached)),
		page.Line(page.Text(words.Capital(words.Against(tie))), cells.Full(tie.Against)),
		page.Styled(page.GrandTotal, page.Text(label), cells.Full(tie.Difference)))
	return t
}

// NoteBlocks are all notes, the largest in money first, numbered as page 1 names them.
func (in *Input) NoteBlocks() []page.Block {
	t := page.Table{Columns: page.Heads{}.Number("No.").Wide(1, "Note").Money("In doubt")}
	for i, n := range in.Notes {
		if n.AsksNothing {
			continue
		}
		text := strings.TrimSpace(words.Note(n) + " " + n.Fix)
		if where := words.Place(n.Place); where != "" {
			text += " (" + where + ")"
		}
		row := page.Line(cells.Count(len(t.Rows)+1), page.Text(text), cells.Money(money.Cents(n.MoneyCents)).Opens(
			in.NoteOf(i)))
		row.Anchor = NoteAnchor(i)
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "There are no notes."}}
	}
	return []page.Block{t}
}

// NoteOf is what a note is about: its words and where to look.
func (in *Input) NoteOf(i int) *Worked {
	n := in.Notes[i]
	return InWords(fmt.Sprintf("Note %d", in.NoteNumber(i)),
		words.Note(n)+words.Enclosed(" Record: ", words.Place(n.Place), "."), money.Cents(n.MoneyCents))
}

// NoteNumber is the number that pages give a note of the list: those that ask for
// nothing have none.
func (in *Input) NoteNumber(i int) int {
	number := 1
	for _, n := range in.Notes[:i] {
		if !n.AsksNothing {
			number++
		}
	}
	return number
}

// WantedOf is where the wanted rate an hour is written down.
func (in *Input) WantedOf() Typed {
	return Typed{What: "The wanted rate an hour", At: fault.Place{File: "settings.toml", Column: "target_hourly"},
		Cents: in.Settings().TargetHourly}
}

// NoteAnchor names a note's row.
func NoteAnchor(i int) string { return fmt.Sprintf("note-%d", i+1) }
