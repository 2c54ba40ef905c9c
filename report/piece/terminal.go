package piece

import (
	"fmt"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Terminal is the profit sheets of the named pieces in brief, for a terminal:
// each in two screens of 24 lines. What it leaves out is on the sheet.
func Terminal(in report.Input, pieces []string) page.Document {
	d := in.Document("Profit sheet")
	d.Fingerprint = ""
	for _, p := range named(&in, pieces) {
		d.Sections = append(d.Sections, brief(&in, p))
	}
	return d
}

// brief is one piece's sheet in brief.
func brief(in *report.Input, p figures.Piece) page.Section {
	mine := in.OfPiece(p.Record.ID).Postings
	var stretches []string
	for _, x := range timeline(in, p).Stretches {
		stretches = append(stretches, x.Label)
	}
	about := identity(in, p).String()
	if len(stretches) > 0 {
		about += " " + words.Capital(strings.Join(stretches, ", ")) + "."
	}
	blocks := append([]page.Block{page.Title{Text: p.Record.ID + " · " + words.Piece(p.Record)}}, answer(in, p, nil)...)
	blocks = append(blocks, page.Paragraph{Text: about})
	for _, x := range photos(in, p).Items {
		if x.Missing != "" {
			blocks = append(blocks, page.Paragraph{Text: x.Caption + ": " + x.Missing})
		}
	}
	t := moneyTable(in, p, mine)
	t.Caption, t.NoHead = "", true
	blocks = append(blocks, t)
	if text := strings.TrimSpace(amongKind(in, p, in.SoldOfKind(p.Record.Kind)).String() + " " +
		timeWords(in, p)); text != "" {
		blocks = append(blocks, page.Paragraph{Text: text})
	}
	blocks = append(blocks, briefSupplies(in, p, supplyRows(in, p, mine))...)
	if list := pieceCautions(in, p); len(list) > 0 {
		blocks = append(blocks, page.Paragraph{Text: "Cautions, in full on the sheet: " + report.CautionNames(list) + "."})
	}
	return page.Section{Title: p.Record.ID, Untitled: true, Blocks: blocks}
}

// fewSupplies is how many supplies are named one by one in brief.
const fewSupplies = 3

// briefSupplies are the largest supplies and the rest in one row.
func briefSupplies(in *report.Input, p figures.Piece, rows []supplyRow) []page.Block {
	if len(rows) == 0 {
		return nil
	}
	t := page.Table{Columns: supplyHead(p).Columns[:6]}
	rest := rows[min(len(rows), fewSupplies):]
	if len(rest) == 1 {
		rest = nil
	}
	for _, r := range rows[:len(rows)-len(rest)] {
		t.Add(r.row(in.LineOfPiece(p.Record.ID, figures.LineSupplies)).Cells[:6]...)
	}
	if len(rest) > 0 {
		var sum money.Cents
		for _, r := range rest {
			sum += r.cents
		}
		t.Add(page.Text(fmt.Sprintf("%d others", len(rest))), page.Empty(), page.Empty(), page.Empty(), page.Empty(),
			cells.Money(sum))
	}
	t.AddSum(page.Total, "All supplies", "= its cost")
	return []page.Block{t}
}
