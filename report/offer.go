package report

import (
	"fmt"
	"math"
	"math/big"

	"piecebook/ledger/money"
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
		words = fmt.Sprintf("To come out even, pay at most %s. No hours are written down for any piece, so what your work should bring cannot be taken off: give --hours.", in.atMost(o.Even.At))
	case o.Even.At <= 0:
		words = fmt.Sprintf("Walk away even when it is free: it would not bring back what it costs, let alone %s an hour.", target)
	case o.WalkAway():
		words = fmt.Sprintf("Walk away even when it is free, if your hours are to bring %s: it %s. Working for nothing you would come out even at %s.",
			target, in.short(-o.Top.At), in.atMost(o.Even.At))
	default:
		words = fmt.Sprintf("Pay at most %s, tax and pickup included, for your hours to bring %s each. To come out even, working for nothing: %s.",
			in.atMost(o.Top.At), target, in.atMost(o.Even.At))
	}
	out := []page.Block{page.Paragraph{Style: page.Lead, Text: words}}
	if o.New() {
		out = append(out, page.Paragraph{Text: fmt.Sprintf("No %s has been sold yet. This uses all %s of the shop instead, and is less sure for it. Give --price, --hours and --area to make it this piece's own.",
			o.Kind, plural(len(o.Past)+o.Others, "piece", "pieces"))})
	}
	return append(out, page.Paragraph{Text: in.sureness(o)})
}

// atMost is a most to pay: whole units, never more than the steps come to; its
// cents where it is less than one.
func (in *Input) atMost(cents float64) string {
	if math.Abs(cents) < whole {
		return in.guess(cents, 1)
	}
	return in.guess(math.Floor(cents/whole)*whole, whole)
}

// short says how far a piece falls short of paying the target.
func (in *Input) short(cents float64) string {
	switch {
	case cents == 0:
		return "leaves just nothing to pay for it"
	case cents < whole:
		return "falls just short of that, by " + in.guess(cents, 1)
	}
	return fmt.Sprintf("falls %s short of that", in.guess(cents, 1))
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
	if a.Cautious < whole {
		return words + fmt.Sprintf(" To have three chances in four of %s, it would have to be free, or nearly so.", what)
	}
	return words + fmt.Sprintf(" For three chances in four of %s, pay at most %s.", what, in.atMost(a.Cautious))
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
			row.Note = in.receiptsWords(o)
		case offer.StepHours:
			row.Note = fmt.Sprintf("%s hours × %s", hoursText(inputOf(o, offer.Hours)), in.spoken(o.Target))
		case offer.StepSupplies:
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
func (in *Input) receiptsWords(o offer.Offer) string {
	i := inputOf(o, offer.Receipts)
	apart := math.Abs(i.Own-i.Used) >= 1
	switch {
	case i.Given:
		return "as you gave it"
	case i.N == 0:
		return fmt.Sprintf("what the shop's pieces bring: no %s has been sold yet", o.Kind)
	case i.N == 1 && apart:
		return fmt.Sprintf("The one %s sold brought %s. One sale may be luck, so this is drawn toward the %s that the shop's pieces bring.", o.Kind, in.guess(i.Own, 1), in.guess(i.Shop, 1))
	case apart:
		return fmt.Sprintf("The %d sold of its kind brought %s on average. So few may be luck, so this is drawn a little toward the %s that the shop's pieces bring.", i.N, in.guess(i.Own, 1), in.guess(i.Shop, 1))
	}
	return ""
}

func (in *Input) suppliesWords(o offer.Offer) string {
	unit := in.settings().AreaUnit()
	words := fmt.Sprintf("for %s %s, each supply listed below", areaText(inputOf(o, offer.Area)), unit)
	if rate, ok := o.PerCoated(); ok {
		words += fmt.Sprintf("; all coats together do about %.0f %s, for about %s each", o.Coated, unit, in.guess(rate, 1))
	}
	return words
}

// offerInputs shows each figure's sources beside each other.
func (in *Input) offerInputs(o offer.Offer) page.Block {
	t := page.Table{Caption: "Where the figures come from", Columns: []page.Column{{Head: "Figure", Weight: 1}, {Head: "Its kind's", Align: page.AlignRight},
		{Head: "Pieces", Kind: page.KindNumber}, {Head: "The shop's", Align: page.AlignRight}, {Head: "Used", Align: page.AlignRight}}}
	for _, i := range o.Inputs {
		used := in.inUnit(i.Used, i.Unit)
		switch i.Unit {
		case "hours":
			used = hoursText(i) + " h"
		case "area":
			used = areaText(i) + " " + in.settings().AreaUnit()
		}
		if i.Given {
			used += ", given"
		}
		t.Rows = append(t.Rows, page.Line(page.Text(capital(i.Label)), page.Text(in.inUnit(i.Own, i.Unit)), count(i.N), page.Text(in.inUnit(i.Shop, i.Unit)), page.Text(used)))
	}
	t.Note = "Used lies between the kind's own average and the shop's: a few pieces may be luck, so the fewer the kind has sold, and the more they differ, the nearer it is to the shop's. What you give is used as it is."
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
	var rest, sum money.Cents
	for i, s := range o.Supplies {
		sum += s.Cents
		if i >= mostSupplies {
			rest += s.Cents
			continue
		}
		row := page.Line(page.Text(s.Name), page.Text(page.Dash), page.Text(page.Dash), page.Text("what pieces bore"), page.Empty(), page.FullMoney(int64(s.Cents)))
		if s.Unit != "" {
			unit := map[string]string{"area": in.settings().AreaUnit(), "hours": "h", "pieces": "pieces"}[s.Unit]
			row.Cells[1], row.Cells[2] = page.Text(money.AtMost(s.Work, 4)+" "+unit), page.Text(money.AtMost(s.Does, 4))
			row.Cells[3], row.Cells[4] = page.Text(shelfBasis[s.Basis]), page.FullMoney(int64(s.Price))
		}
		t.Rows = append(t.Rows, row)
	}
	if n := len(o.Supplies) - mostSupplies; n > 0 {
		t.Rows = append(t.Rows, page.Line(page.Text(plural(n, "smaller one", "smaller ones")), page.Empty(), page.Empty(), page.Empty(), page.Empty(), page.FullMoney(int64(rest))))
	}
	t.Rows = append(t.Rows, page.Styled(page.Total, page.Text("Supplies"), page.Empty(), page.Empty(), page.Empty(), page.Empty(), page.FullMoney(int64(sum))))
	t.Note = "Comes to is does on it ÷ a container does × costs now. What such pieces had put on, brought to this one's size, by what a container really does (own: from the shop's counts) and what it cost last."
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
