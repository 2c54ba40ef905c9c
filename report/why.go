package report

import (
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// WhyDoc is the postings under a figure, each with its arithmetic and sources.
// Title names the figure; total is the figure they must add up to, and a
// difference is printed where they do not. Each posting counts with the sign
// its Cents have: the caller turns those that go against the figure.
func WhyDoc(in Input, title string, postings []ledger.Posting, total money.Cents) page.Document {
	d := in.document("Why")
	d.Subject = title
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 3}, {Head: "From, to", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Record", Small: true, Weight: 1}}}
	var sum money.Cents
	for _, p := range postings {
		row := page.Line(page.Date(p.Date.String()), page.Text(whyWords(p)), page.Text(string(p.From)+", "+string(p.To)), cash(p.Cents), page.Text(sources(p.Source)))
		row.Note = p.Arithmetic
		t.Rows = append(t.Rows, row)
		sum += p.Cents
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("Together"), page.Empty(), page.Empty(), page.FullMoney(int64(sum))))
	section := page.Section{Title: title, Blocks: []page.Block{t}}
	if sum != total {
		section.Blocks = append(section.Blocks, page.Paragraph{Text: "LOOK: the figure is " + in.spoken(total) + ", " + in.spoken(total-sum) + " away from these postings."})
	}
	if len(postings) == 0 {
		section.Blocks = []page.Block{page.Paragraph{Text: "Nothing was posted under it, so it is " + in.spoken(total) + "."}}
	}
	d.Sections = []page.Section{section}
	return d
}

// whyWords is a posting's reason with its piece and supply.
func whyWords(p ledger.Posting) string {
	words := []string{string(p.Why)}
	for _, s := range []string{p.Piece, p.Supply, p.Group} {
		if s != "" {
			words = append(words, s)
		}
	}
	return capital(strings.Join(words, ", "))
}
