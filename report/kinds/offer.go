package kinds

import (
	"fmt"
	"math"
	"math/big"

	"piecebook/ledger/money"
	"piecebook/ledger/offer"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// OfferDoc is the most to pay for a piece in view: the answer, how it was
// reached, how sure it is, what it rests on and what would change it most.
func OfferDoc(in report.Input, o offer.Offer) page.Document {
	d := in.Document("The most to pay for a piece in view")
	d.Period = "records up to the end of " + in.Month.To.Name()
	d.Sections = []page.Section{{Title: words.Capital(o.Kind), Blocks: offerAnswer(&in, o)},
		{Title: "How it was reached", Blocks: offerWay(&in, o)},
		{Title: "What it rests on", Blocks: offerPast(&in, o)}}
	if len(o.Swings) > 0 {
		d.Sections = append(d.Sections, page.Section{Title: "What would change it most", Blocks: offerSwings(&in, o)})
	}
	return d
}

// offerAnswer is what to pay in words.
func offerAnswer(in *report.Input, o offer.Offer) []page.Block {
	target := in.Spoken(o.Target)
	var text string
	switch {
	case o.NoHours && o.Even.At <= 0:
		text = "Walk away even when it is free: it would not bring back what it costs. No hours are written down, so your work is not even counted."
	case o.NoHours:
		text = fmt.Sprintf("To come out even, pay at most %s. No hours are written down for any piece, so what your work should bring cannot be taken off: give --hours.", atMost(in, o.Even.At))
	case o.Even.At <= 0:
		text = fmt.Sprintf("Walk away even when it is free: it would not bring back what it costs, let alone %s an hour.", target)
	case o.WalkAway():
		text = fmt.Sprintf("Walk away even when it is free, if your hours are to bring %s: it %s. Working for nothing you would come out even at %s.",
			target, short(in, -o.Top.At), atMost(in, o.Even.At))
	default:
		text = fmt.Sprintf("Pay at most %s, tax and pickup included, for your hours to bring %s each. To come out even, working for nothing: %s.",
			atMost(in, o.Top.At), target, atMost(in, o.Even.At))
	}
	out := []page.Block{page.Paragraph{Style: page.Lead, Text: text}}
	if o.New() {
		out = append(out, page.Paragraph{Text: fmt.Sprintf("No %s has been sold yet. This uses all %s of the shop instead, and is less sure for it. Give --price, --hours and --area to make it this piece's own.",
			o.Kind, words.Plural(len(o.Past)+o.Others, "piece", "pieces"))})
	}
	return append(out, page.Paragraph{Text: sureness(in, o)})
}

// atMost is a most to pay: whole units, never more than the steps come to; its
// cents where it is less than one.
func atMost(in *report.Input, cents float64) string {
	if math.Abs(cents) < whole {
		return guess(in, cents, 1)
	}
	return guess(in, math.Floor(cents/whole)*whole, whole)
}

// short says how far a piece falls short of paying the target.
func short(in *report.Input, cents float64) string {
	switch {
	case cents == 0:
		return "leaves just nothing to pay for it"
	case cents < whole:
		return "falls just short of that, by " + guess(in, cents, 1)
	}
	return fmt.Sprintf("falls %s short of that", guess(in, cents, 1))
}

// sureness says how far a single piece can lie off.
func sureness(in *report.Input, o offer.Offer) string {
	a, what := o.Top, "your target"
	if o.NoHours {
		a, what = o.Even, "coming out even"
	}
	if !a.Known {
		return "How sure this is cannot be told: there are too few pieces, or all brought the same."
	}
	text := fmt.Sprintf("How sure: known afterwards, the right price for one such piece lies between %s and %s with nine chances in ten.", guess(in, a.Low, whole), guess(in, a.High, whole))
	if a.Low < 0 {
		text += " Brackets are below nothing."
	}
	if a.At <= 0 {
		return text
	}
	if a.Cautious < whole {
		return text + fmt.Sprintf(" To have three chances in four of %s, it would have to be free, or nearly so.", what)
	}
	return text + fmt.Sprintf(" For three chances in four of %s, pay at most %s.", what, atMost(in, a.Cautious))
}

// offerWay is the way from what it brings to the most to pay, and where each
// figure comes from.
func offerWay(in *report.Input, o offer.Offer) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Step", Weight: 1}, {Head: "Amount", Kind: page.KindMoney}}}
	lines := o.Lines
	if o.NoHours {
		lines = lines[:len(lines)-2]
	}
	for i, l := range lines {
		row := page.Line(page.Text(l.Label), page.FullMoney(int64(l.Cents)))
		row.Note = l.How
		switch {
		case i == len(o.Lines)-1:
			row.Style = page.GrandTotal
		case l.Label == offer.StepEven:
			row.Style = page.Subtotal
		}
		switch l.Label {
		case offer.StepReceipts:
			row.Note = receiptsWords(in, o)
		case offer.StepHours:
			row.Note = fmt.Sprintf("%s hours × %s", hoursText(inputOf(o, offer.Hours)), in.Spoken(o.Target))
		case offer.StepSupplies:
			row.Note = suppliesWords(in, o)
		}
		t.Rows = append(t.Rows, row)
	}
	out := []page.Block{t, offerInputs(in, o)}
	if len(o.Supplies) > 0 {
		out = append(out, offerSupplies(in, o))
	}
	return out
}

func inputOf(o offer.Offer, label string) offer.Input {
	for _, i := range o.Inputs {
		if i.Label == label {
			return i
		}
	}
	return offer.Input{}
}

// hoursText and areaText are what is reckoned with, in full: two and one
// decimals, more where the owner gave more.
func hoursText(i offer.Input) string { return decimalsOf(i.Exact(), 2) }
func areaText(i offer.Input) string  { return decimalsOf(i.Exact(), 1) }

func decimalsOf(x *big.Rat, least int) string {
	if money.RoundTo(x, least).Cmp(x) == 0 {
		return x.FloatString(least)
	}
	return money.AtMost(x, 4)
}

// receiptsWords says why the expected price is not what the kind's pieces
// brought: few sales may be luck.
func receiptsWords(in *report.Input, o offer.Offer) string {
	i := inputOf(o, offer.Receipts)
	apart := math.Abs(i.Own-i.Used) >= 1
	switch {
	case i.Given:
		return "as you gave it"
	case i.N == 0:
		return fmt.Sprintf("what the shop's pieces bring: no %s has been sold yet", o.Kind)
	case i.N == 1 && apart:
		return fmt.Sprintf("The one %s sold brought %s. One sale may be luck, so this is drawn toward the %s that the shop's pieces bring.", o.Kind, guess(in, i.Own, 1), guess(in, i.Shop, 1))
	case apart:
		return fmt.Sprintf("The %d sold of its kind brought %s on average. So few may be luck, so this is drawn a little toward the %s that the shop's pieces bring.", i.N, guess(in, i.Own, 1), guess(in, i.Shop, 1))
	}
	return ""
}

func suppliesWords(in *report.Input, o offer.Offer) string {
	unit := in.Settings().AreaUnit()
	text := fmt.Sprintf("for %s %s, each supply listed below", areaText(inputOf(o, offer.Area)), unit)
	if rate, ok := o.PerCoated(); ok {
		text += fmt.Sprintf("; all coats together do about %.0f %s, for about %s each", o.Coated, unit, guess(in, rate, 1))
	}
	return text
}

// offerInputs shows each figure's sources beside each other.
func offerInputs(in *report.Input, o offer.Offer) page.Block {
	t := page.Table{Caption: "Where the figures come from", Columns: []page.Column{{Head: "Figure", Weight: 1}, {Head: "Its kind's", Align: page.AlignRight},
		{Head: "Pieces", Kind: page.KindNumber}, {Head: "The shop's", Align: page.AlignRight}, {Head: "Used", Align: page.AlignRight}}}
	for _, i := range o.Inputs {
		used := inUnit(in, i.Used, i.Unit)
		switch i.Unit {
		case "hours":
			used = hoursText(i) + " h"
		case "area":
			used = areaText(i) + " " + in.Settings().AreaUnit()
		}
		if i.Given {
			used += ", given"
		}
		t.Rows = append(t.Rows, page.Line(page.Text(words.Capital(i.Label)), page.Text(inUnit(in, i.Own, i.Unit)), cells.Count(i.N), page.Text(inUnit(in, i.Shop, i.Unit)), page.Text(used)))
	}
	t.Note = "Used lies between the kind's own average and the shop's: a few pieces may be luck, so the fewer the kind has sold, and the more they differ, the nearer it is to the shop's. What you give is used as it is."
	return t
}

// inUnit is an input's figure in its unit.
func inUnit(in *report.Input, x float64, unit string) string {
	if math.IsNaN(x) {
		return page.Dash
	}
	switch unit {
	case "money":
		return guess(in, x, 1)
	case "share":
		return fmt.Sprintf("%.1f %%", 100*x)
	case "area":
		return fmt.Sprintf("%.1f %s", x, in.Settings().AreaUnit())
	}
	return fmt.Sprintf("%.2f h", x)
}

// mostSupplies is how many supplies an offer lists; the small ones stand in one line.
const mostSupplies = 8

// offerSupplies is what the supplies' cost is made of.
func offerSupplies(in *report.Input, o offer.Offer) page.Block {
	t := page.Table{Caption: "Supplies", Columns: []page.Column{{Head: "Supply", Weight: 1}, {Head: "Does on it", Align: page.AlignRight}, {Head: "A container does", Align: page.AlignRight},
		{Head: "By"}, {Head: "Costs now", Kind: page.KindMoney}, {Head: "Comes to", Kind: page.KindMoney}}}
	var rest, sum money.Cents
	for i, s := range o.Supplies {
		sum += s.Cents
		if i >= mostSupplies {
			rest += s.Cents
			continue
		}
		row := page.Line(page.Text(s.Name), page.Text(page.Dash), page.Text(page.Dash), page.Text("what pieces bore"), page.Empty(), page.FullMoney(int64(s.Cents)))
		if s.Unit != "" {
			unit := map[string]string{"area": in.Settings().AreaUnit(), "hours": "h", "pieces": "pieces"}[s.Unit]
			row.Cells[1], row.Cells[2] = page.Text(money.AtMost(s.Work, 4)+" "+unit), page.Text(money.AtMost(s.Does, 4))
			row.Cells[3], row.Cells[4] = page.Text(words.ShelfBasis[s.Basis]), page.FullMoney(int64(s.Price))
		}
		t.Rows = append(t.Rows, row)
	}
	if n := len(o.Supplies) - mostSupplies; n > 0 {
		t.Rows = append(t.Rows, page.Line(page.Text(words.Plural(n, "smaller one", "smaller ones")), page.Empty(), page.Empty(), page.Empty(), page.Empty(), page.FullMoney(int64(rest))))
	}
	t.Rows = append(t.Rows, page.Styled(page.Total, page.Text("Supplies"), page.Empty(), page.Empty(), page.Empty(), page.Empty(), page.FullMoney(int64(sum))))
	t.Note = "Comes to is does on it ÷ a container does × costs now. What such pieces had put on, brought to this one's size, by what a container really does (own: from the shop's counts) and what it cost last."
	return t
}

// offerPast are the kind's pieces.
func offerPast(in *report.Input, o offer.Offer) []page.Block {
	if len(o.Past) == 0 {
		return []page.Block{page.Paragraph{Text: fmt.Sprintf("No piece of its kind; %s of other kinds.", words.Plural(o.Others, "piece", "pieces"))}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Left", Kind: page.KindDate}, {Head: "Paid", Kind: page.KindMoney}, {Head: "Receipts", Kind: page.KindMoney},
		{Head: "Hours", Kind: page.KindNumber}, {Head: "Was worth", Kind: page.KindMoney}}}
	past := o.Past[max(0, len(o.Past)-mostPast):]
	for _, p := range past {
		x := p.Life
		what := x.Record.Description
		if x.Status != "sold" {
			what = words.Capital(x.Status) + ": " + what
		}
		row := page.Line(page.Text(x.Record.ID), page.Text(what), page.Date(x.Left.String()), cells.Money(x.Acquisition), cells.Money(x.Receipts), cells.Hours(x.Hours), page.Empty())
		if p.Timed {
			row.Cells[6] = estimated(p.Worth, 1)
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = fmt.Sprintf("Paid is price, tax and pickup. Was worth: what it would have been right to pay, known afterwards, for %s an hour. The scatter of these, steadied by the shop's, is how sure the answer is.", in.Spoken(o.Target))
	if n := len(o.Past) - len(past); n > 0 {
		t.Note = fmt.Sprintf("The last %d; it rests on %s too. ", len(past), words.Plural(n, "earlier one", "earlier ones")) + t.Note
	}
	return []page.Block{cells.WithoutBlank(t, "What")}
}

// mostPast is how many past pieces are listed.
const mostPast = 20

// offerSwings are the usual differences and what each does.
func offerSwings(in *report.Input, o offer.Offer) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "If this differs", Weight: 1}, {Head: "As pieces usually do, by", Align: page.AlignRight}, {Head: "The offer moves by", Kind: page.KindMoney}}}
	for _, s := range o.Swings {
		t.Rows = append(t.Rows, page.Line(page.Text(words.Capital(s.What)), page.Text(inUnit(in, s.By, s.Unit)), estimated(s.Change, 1)))
	}
	t.Note = "The usual difference is the standard deviation of the kind's own pieces, or, under three of them, of pieces within the shop's kinds."
	return []page.Block{t}
}
