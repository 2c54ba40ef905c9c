package report

import (
	"fmt"
	"math"

	"piecebook/ledger/offer"
	"piecebook/report/page"
)

// OfferDoc is the most to pay for a piece in view: the answer, how it was
// reached, how sure it is, what it rests on and what would change it most.
func OfferDoc(in Input, o offer.Offer) page.Document {
	d := in.document("The most to pay for a piece in view")
	d.Period = "records up to the end of " + in.Month.To.Name()
	d.Sections = []page.Section{{Title: capital(o.Kind), Blocks: in.offerAnswer(o)},
		{Title: "How it was reached", Blocks: in.offerWay(o)},
		{Title: "What it rests on", Blocks: in.offerPast(o)}}
	if len(o.Swings) > 0 {
		d.Sections = append(d.Sections, page.Section{Title: "What would change it most", Blocks: in.offerSwings(o)})
	}
	return d
}

// offerAnswer is what to pay in words.
func (in *Input) offerAnswer(o offer.Offer) []page.Block {
	target := in.spoken(o.Target)
	var words string
	switch {
	case o.NoHours && o.Even.At <= 0:
		words = "Walk away even when it is free: it would not bring back what it costs. No hours are written down, so your work is not even counted."
	case o.NoHours:
		words = fmt.Sprintf("To come out even, pay at most %s. No hours are written down for any piece, so what your work should bring cannot be taken off: give --hours.", in.guess(o.Even.At, whole))
	case o.Even.At <= 0:
		words = fmt.Sprintf("Walk away even when it is free: it would not bring back what it costs, let alone %s an hour.", target)
	case o.WalkAway():
		words = fmt.Sprintf("Walk away even when it is free, if your hours are to bring %s: it falls %s short of that. Working for nothing you would come out even at %s.",
			target, in.guess(-o.Top.At, whole), in.guess(o.Even.At, whole))
	default:
		words = fmt.Sprintf("Pay at most %s, tax and pickup included, for your hours to bring %s each. To come out even, working for nothing: %s.",
			in.guess(o.Top.At, whole), target, in.guess(o.Even.At, whole))
	}
	out := []page.Block{page.Paragraph{Style: page.Lead, Text: words}}
	if o.New() {
		out = append(out, page.Paragraph{Text: fmt.Sprintf("No %s has been sold yet. This uses all %s of the shop instead, and is less sure for it. Give --price, --hours and --area to make it this piece's own.",
			o.Kind, plural(len(o.Past)+o.Others, "piece", "pieces"))})
	}
	return append(out, page.Paragraph{Text: in.sureness(o)})
}

// sureness says how far a single piece can lie off.
func (in *Input) sureness(o offer.Offer) string {
	a, what := o.Top, "your target"
	if o.NoHours {
		a, what = o.Even, "coming out even"
	}
	if !a.Known {
		return "How sure this is cannot be told: there are too few pieces, or all brought the same."
	}
	words := fmt.Sprintf("How sure: known afterwards, the right price for one such piece lies between %s and %s with nine chances in ten.", in.guess(a.Low, whole), in.guess(a.High, whole))
	if a.Low < 0 {
		words += " Brackets are below nothing."
	}
	if a.At <= 0 {
		return words
	}
	if a.Cautious <= 0 {
		return words + fmt.Sprintf(" To have three chances in four of %s, it would have to be free or better.", what)
	}
	return words + fmt.Sprintf(" For three chances in four of %s, pay at most %s.", what, in.guess(a.Cautious, whole))
}

// offerWay is the way from what it brings to the most to pay, and where each
// figure comes from.
func (in *Input) offerWay(o offer.Offer) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Step", Weight: 1}, {Head: "Amount", Kind: page.KindMoney}}}
	lines := o.Lines
	if o.NoHours {
		lines = lines[:len(lines)-2]
	}
	for i, l := range lines {
		row := page.Line(page.Text(l.Label), estimated(l.Cents, 1))
		row.Note = l.How
		switch {
		case i == len(o.Lines)-1:
			row.Style = page.GrandTotal
		case l.Label == lines[len(lines)-1].Label || i == len(o.Lines)-3:
			row.Style = page.Subtotal
		}
		if l.Label == "Your hours" {
			row.Note = fmt.Sprintf("%.2f hours × %s", usedOf(o, offer.Hours), in.spoken(o.Target))
		}
		if l.Label == "Supplies" {
			row.Note = in.suppliesWords(o)
		}
		t.Rows = append(t.Rows, row)
	}
	out := []page.Block{t, in.offerInputs(o)}
	if len(o.Supplies) > 0 {
		out = append(out, in.offerSupplies(o))
	}
	return out
}

func usedOf(o offer.Offer, label string) float64 {
	for _, i := range o.Inputs {
		if i.Label == label {
			return i.Used
		}
	}
	return math.NaN()
}

func (in *Input) suppliesWords(o offer.Offer) string {
	unit := in.settings().AreaUnit()
	words := fmt.Sprintf("for %.1f %s", usedOf(o, offer.Area), unit)
	if rate, ok := o.PerCoated(); ok {
		words += fmt.Sprintf(": %.0f %s over all coats, at the shop's own %s each", o.Coated, unit, in.guess(rate, 1))
	}
	return words
}

// offerInputs shows each figure's sources beside each other.
func (in *Input) offerInputs(o offer.Offer) page.Block {
	t := page.Table{Caption: "Where the figures come from", Columns: []page.Column{{Head: "Figure", Weight: 1}, {Head: "Its kind's", Align: page.AlignRight},
		{Head: "Pieces", Kind: page.KindNumber}, {Head: "The shop's", Align: page.AlignRight}, {Head: "Used", Align: page.AlignRight}}}
	for _, i := range o.Inputs {
		used := in.inUnit(i.Used, i.Unit)
		if i.Given {
			used += ", given"
		}
		t.Rows = append(t.Rows, page.Line(page.Text(capital(i.Label)), page.Text(in.inUnit(i.Own, i.Unit)), count(i.N), page.Text(in.inUnit(i.Shop, i.Unit)), page.Text(used)))
	}
	t.Note = "Used is the kind's own average drawn toward the shop's average over its kinds: the further, the fewer and the more scattered its pieces are. All but never sold are of sold pieces; of that the shop's share counts as ten pieces beside the kind's own. What you give is used as it is."
	return t
}

// inUnit is an input's figure in its unit.
func (in *Input) inUnit(x float64, unit string) string {
	if math.IsNaN(x) {
		return page.Dash
	}
	switch unit {
	case "money":
		return in.guess(x, 1)
	case "share":
		return fmt.Sprintf("%.1f %%", 100*x)
	case "area":
		return fmt.Sprintf("%.1f %s", x, in.settings().AreaUnit())
	}
	return fmt.Sprintf("%.2f h", x)
}

// mostSupplies is how many supplies an offer lists; the small ones stand in one line.
const mostSupplies = 8

// offerSupplies is what the supplies' cost is made of.
func (in *Input) offerSupplies(o offer.Offer) page.Block {
	t := page.Table{Caption: "Supplies", Columns: []page.Column{{Head: "Supply", Weight: 1}, {Head: "Does on it", Align: page.AlignRight}, {Head: "A container does", Align: page.AlignRight},
		{Head: "By"}, {Head: "Costs now", Kind: page.KindMoney}, {Head: "Comes to", Kind: page.KindMoney}}}
	var rest, sum float64
	for i, s := range o.Supplies {
		sum += s.Cents
		if i >= mostSupplies {
			rest += s.Cents
			continue
		}
		row := page.Line(page.Text(s.Name), page.Text(page.Dash), page.Text(page.Dash), page.Text("what pieces bore"), page.Empty(), estimated(s.Cents, 1))
		if s.Unit != "" {
			unit := map[string]string{"area": in.settings().AreaUnit(), "hours": "h", "pieces": "pieces"}[s.Unit]
			row.Cells[1], row.Cells[2] = page.Text(fmt.Sprintf("%.1f %s", s.Work, unit)), page.Text(fmt.Sprintf("%.0f", s.Does))
			row.Cells[3], row.Cells[4] = page.Text(shelfBasis[s.Basis]), estimated(s.Price, 1)
		}
		t.Rows = append(t.Rows, row)
	}
	if n := len(o.Supplies) - mostSupplies; n > 0 {
		t.Rows = append(t.Rows, page.Line(page.Text(plural(n, "smaller one", "smaller ones")), page.Empty(), page.Empty(), page.Empty(), page.Empty(), estimated(rest, 1)))
	}
	t.Rows = append(t.Rows, page.Styled(page.Total, page.Text("Supplies"), page.Empty(), page.Empty(), page.Empty(), page.Empty(), estimated(sum, 1)))
	t.Note = "What such pieces had put on, brought to this one's size, by what a container really does (own: from the shop's counts) and what it cost last."
	return t
}

// offerPast are the kind's pieces.
func (in *Input) offerPast(o offer.Offer) []page.Block {
	if len(o.Past) == 0 {
		return []page.Block{page.Paragraph{Text: fmt.Sprintf("No piece of its kind; %s of other kinds.", plural(o.Others, "piece", "pieces"))}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Left", Kind: page.KindDate}, {Head: "Paid", Kind: page.KindMoney}, {Head: "Receipts", Kind: page.KindMoney},
		{Head: "Hours", Kind: page.KindNumber}, {Head: "Was worth", Kind: page.KindMoney}}}
	past := o.Past[max(0, len(o.Past)-mostPast):]
	for _, p := range past {
		x := p.Life
		what := x.Record.Description
		if x.Status != "sold" {
			what = capital(x.Status) + ": " + what
		}
		row := page.Line(page.Text(x.Record.ID), page.Text(what), page.Date(x.Left.String()), cash(x.Acquisition), cash(x.Receipts), hoursCell(x.Hours), page.Empty())
		if p.Timed {
			row.Cells[6] = estimated(p.Worth, 1)
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = fmt.Sprintf("Paid is price, tax and pickup. Was worth: what it would have been right to pay, known afterwards, for %s an hour. The scatter of these, steadied by the shop's, is how sure the answer is.", in.spoken(o.Target))
	if n := len(o.Past) - len(past); n > 0 {
		t.Note = fmt.Sprintf("The last %d; it rests on %s too. ", len(past), plural(n, "earlier one", "earlier ones")) + t.Note
	}
	return []page.Block{withoutBlank(t, "What")}
}

// mostPast is how many past pieces are listed.
const mostPast = 20

// offerSwings are the usual differences and what each does.
func (in *Input) offerSwings(o offer.Offer) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "If this differs", Weight: 1}, {Head: "As pieces usually do, by", Align: page.AlignRight}, {Head: "The offer moves by", Kind: page.KindMoney}}}
	for _, s := range o.Swings {
		t.Rows = append(t.Rows, page.Line(page.Text(capital(s.What)), page.Text(in.inUnit(s.By, s.Unit)), estimated(s.Change, 1)))
	}
	t.Note = "The usual difference is the standard deviation of the kind's own pieces, or, under three of them, of pieces within the shop's kinds."
	return []page.Block{t}
}
