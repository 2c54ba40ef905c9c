package kinds

import (
	"fmt"
	"math"

	"piecebook/ledger/offer"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// OfferDoc is the most to pay for a piece in view: the answer, how it was
// reached, what is known of the piece and what the answer rests on.
func OfferDoc(in report.Input, o offer.Offer) page.Document {
	d := in.Document("The most to pay for a piece in view")
	d.Period = "records up to the end of " + in.Month.To.Name()
	d.Sections = []page.Section{{Title: words.Capital(o.Kind), Blocks: offerAnswer(&in, o)}}
	if !o.NoHours {
		d.Sections = append(d.Sections, page.Section{Title: "How it was reached", Blocks: offerWay(&in, o)})
	}
	d.Sections = append(d.Sections, page.Section{Title: "What it rests on", Blocks: offerPast(&in, o)})
	return d
}

// offerAnswer is what to pay in words.
func offerAnswer(in *report.Input, o offer.Offer) []page.Block {
	out := []page.Block{page.Paragraph{Style: page.Lead, Text: offerWords(in, o)}}
	if o.New() {
		out = append(out, page.Paragraph{Text: fmt.Sprintf("No %s has been sold yet. This rests on %s of the shop's "+
			"other kinds and is less sure for it. Say what it may sell for and its hours (--sells-for, --hours) to make it "+
			"this piece's own.", o.Kind, words.Plural(o.Others, "sale", "sales"))})
	}
	if o.NoHours {
		return out
	}
	return append(out, page.Paragraph{Text: sureness(in, o)})
}

// offerWords is the answer: to what the seller asks where that is known, else
// the most to pay.
func offerWords(in *report.Input, o offer.Offer) string {
	if o.NoHours {
		const give = "No hours are written down for any piece, so what your work should bring cannot be taken off: " +
			"give --hours."
		if o.Even <= 0 {
			return "Walk away even when it is free: it would not bring back what it costs. " + give
		}
		return fmt.Sprintf("To break even, pay at most %s. %s", atMost(in, o.Even), give)
	}
	text := ""
	wanted := fmt.Sprintf("%s an hour%s", in.Spoken(o.Target), afterCosts(in, o))
	if o.Asked != nil {
		answer := "No"
		if o.Asked.Buy {
			answer = "Yes"
		}
		text = fmt.Sprintf("%s, for %s, all there is to pay: ", answer, in.Spoken(o.Asked.Price))
		if !math.IsNaN(o.Asked.Chance) {
			text += fmt.Sprintf("the chance that the piece turns out to be worth that is %s. ", chance(o.Asked.Chance))
		}
	}
	if o.WalkAway() {
		text += fmt.Sprintf("Walk away even when it is free: at %s it %s.", wanted, short(in, -o.Top.At))
	} else {
		text += fmt.Sprintf("Pay at most %s, tax and pickup included, for your work to bring %s.", atMost(in, o.Top.At),
			wanted)
	}
	return text + idleWords(in, o)
}

// afterCosts says that the target is judged after the usual shop costs.
func afterCosts(in *report.Input, o offer.Offer) string {
	if o.Costs.AnHour == 0 {
		return ""
	}
	return fmt.Sprintf(" after usual shop costs of %s", in.Spoken(o.Costs.AnHour))
}

// idleWords says what would still pay for itself where the hours would else
// bring nothing, and what only breaks even.
func idleWords(in *report.Input, o offer.Offer) string {
	text := ""
	if o.Costs.AnHour != 0 && o.Idle > 0 {
		text += fmt.Sprintf(" In an idle week, when shop costs run on anyway, up to %s still brings %s an hour.", atMost(in,
			o.Idle), in.Spoken(o.Target))
	}
	if o.Even <= 0 {
		return text + " It would not even bring back what it costs."
	}
	return text + fmt.Sprintf(" To break even, working for nothing: %s.", atMost(in, o.Even))
}

// atMost is a most to pay: whole units, rounded down from the cents that the
// table prints; its cents where it is less than one.
func atMost(in *report.Input, cents float64) string {
	cents = math.RoundToEven(cents)
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
		return "falls just short, by " + guess(in, cents, 1)
	}
	return fmt.Sprintf("falls %s short", guess(in, cents, whole))
}

// sureness says between what the worth of the one next piece lies.
func sureness(in *report.Input, o offer.Offer) string {
	a := o.Top
	if !a.Known {
		return "There is no telling how sure this is: too few pieces have been sold."
	}
	text := fmt.Sprintf("One such piece turns out to be worth between %s and %s with nine chances in ten.", guess(in,
		a.Low, whole), guess(in, a.High, whole))
	if a.Low < 0 {
		text += " Brackets are below nothing."
	}
	switch {
	case a.At <= 0:
		return text
	case a.Cautious < whole:
		return text + " For three chances in four of reaching the target it would have to be free, or nearly so."
	}
	return text + fmt.Sprintf(" For three chances in four of reaching the target, pay at most %s.", atMost(in, a.Cautious))
}

// steps are the labels of the way to an offer.
var steps = map[offer.Step]string{
	offer.StepReceipts: "What such pieces brought", offer.StepSelling: "Selling costs", offer.StepParts: "Parts " +
		"and outside work",
	offer.StepSupplies: "Supplies", offer.StepTrips: "Trips", offer.StepHours: "Your " +
		"hours", offer.StepAverage: "What they were worth",
	offer.StepDrawn: "Drawn toward the shop's other kinds", offer.StepTrend: "Prices since then, " +
		"and the season", offer.StepKnown: "What is known of this one",
	offer.StepTop: "The most to pay",
}

// offerWay is the way from what such pieces brought to the most to pay.
func offerWay(in *report.Input, o offer.Offer) []page.Block {
	t := page.Table{Columns: page.Heads{}.Wide(1, "Step").Money("Amount")}
	for _, l := range o.Lines {
		row := page.Line(page.Text(steps[l.Step]), cells.Full(l.Cents))
		switch l.Step {
		case offer.StepReceipts:
			row.Note = fmt.Sprintf("on average, over %s of its kind, failures included", words.Plural(o.Sales, "sale", "sales"))
			if o.Sales == 0 {
				row.Note = fmt.Sprintf("on average, over %s of all kinds, failures included", words.Plural(o.Others, "sale",
					"sales"))
			}
		case offer.StepHours:
			row.Note = fmt.Sprintf("%.2f hours at %s: %s wanted and %s of shop costs", l.Hours,
				in.Spoken(o.Target+o.Costs.AnHour), in.Spoken(o.Target), in.Spoken(o.Costs.AnHour))
		case offer.StepAverage:
			row.Style = page.Subtotal
		case offer.StepTop:
			row.Style = page.GrandTotal
		case offer.StepDrawn:
			row.Note = "a few sales may be luck"
		case offer.StepTrend, offer.StepKnown:
			if l.Cents == 0 {
				continue
			}
		}
		t.Rows = append(t.Rows, row)
	}
	out := []page.Block{t}
	if len(o.Known) > 0 {
		out = append(out, offerKnown(in, o))
	}
	for _, what := range o.Unshown {
		out = append(out, page.Paragraph{Text: knownLabels[what] + " moves nothing: too few sales are on record that " +
			"would show what it does."})
	}
	return out
}

// knownLabels are the labels of what is known of a piece.
var knownLabels = map[string]string{offer.Area: "Area", offer.Condition: "Condition", offer.Channel: "Channel",
	offer.SellsFor: "Sells for", offer.Hours: "Hours", offer.Parts: "Parts and outside work"}

// offerKnown is what is known of this piece and what each moves.
func offerKnown(in *report.Input, o offer.Offer) page.Block {
	t := page.Table{Caption: "What is known of this one", Columns: page.Heads{}.Wide(1, "What").Number("On record").
		Right("Such guesses are off by", "Such pieces have", "Counted on").Money("Moves the offer by")}
	for _, k := range o.Known {
		row := page.Line(page.Text(knownLabels[k.What]), cells.CountOrDash(k.On), page.Empty(), page.Empty(), page.Empty(),
			estimated(k.Moves, 1))
		if k.Off > 0 {
			row.Cells[2] = page.Text(fmt.Sprintf("%.0f %%", 100*k.Off))
			row.Cells[3], row.Cells[4] = page.Text(figure(in, k, k.Usual)), page.Text(figure(in, k, k.Taken))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = "On record: sales that show what it does, or earlier guesses (asking prices and worths against " +
		"sales). A guess is counted on as far as such guesses hold; the rest is what such pieces usually have."
	return t
}

// figure is a guessed figure in its unit.
func figure(in *report.Input, k offer.Known, x float64) string {
	if k.What == offer.Hours {
		return fmt.Sprintf("%.2f h", x)
	}
	return guess(in, x, 1)
}

// offerPast are the kind's pieces.
func offerPast(in *report.Input, o offer.Offer) []page.Block {
	if len(o.Past) == 0 {
		return []page.Block{page.Paragraph{Text: fmt.Sprintf("No piece of its kind; %s of other kinds.",
			words.Plural(o.Others, "sale", "sales"))}}
	}
	t := page.Table{Columns: page.Heads{}.Text("Piece").Wide(1, "What").Date("Left").Money("Paid", "Receipts").
		Number("Hours").Money("Was worth")}
	past := o.Past[max(0, len(o.Past)-mostPast):]
	for _, p := range past {
		x := p.Life
		what := x.Record.Description
		if !x.Sold() {
			what = words.Capital(x.Status) + ": " + what
		}
		row := page.Line(page.Text(x.Record.ID), page.Text(what), page.Date(in.Day(x.Left)), cells.Money(x.Acquisition),
			cells.Money(x.Receipts), cells.Hours(x.Hours), page.Empty())
		if p.Timed {
			row.Cells[6] = estimated(p.Worth, 1)
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = fmt.Sprintf("Paid is price, tax and pickup. Was worth: what it would have been right to pay, known "+
		"afterwards, for %s an hour%s.", in.Spoken(o.Target), afterCosts(in, o))
	if n := len(o.Past) - len(past); n > 0 {
		t.Note = fmt.Sprintf("The last %d; it rests on %s too. ", len(past), words.Plural(n, "earlier one",
			"earlier ones")) + t.Note
	}
	return []page.Block{cells.WithoutBlank(t, "What")}
}

// mostPast is how many past pieces are listed.
const mostPast = 20
