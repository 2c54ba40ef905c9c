package kinds

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// perHourOf is one piece's profit for an hour of its own.
func perHourOf(x kinds.Life) money.Cents {
	return money.Round(new(big.Rat).Quo(x.Result.Rat(), x.Hours))
}

// withShop are the kinds with anything to say, and all of them together last.
func withShop(r kinds.Report, says func(kinds.Kind) bool) []kinds.Kind {
	out := slices.DeleteFunc(slices.Clone(r.Kinds), func(k kinds.Kind) bool { return !says(k) })
	if len(out) == 0 {
		return nil
	}
	return append(out, r.Shop)
}

// kindRows makes a table's rows, the shop's as its total.
func kindRows(t *page.Table, of []kinds.Kind, cells func(kinds.Kind) []page.Cell) {
	for i, k := range of {
		row := page.Row{Cells: append([]page.Cell{page.Text(k.Name)}, cells(k)...)}
		if i == len(of)-1 {
			row.Style = page.Total
		}
		t.Rows = append(t.Rows, row)
	}
}

// kindsMoney is what each kind brought, and what it holds now.
func kindsMoney(in *report.Input, r kinds.Report) []page.Block {
	judged := withShop(r, func(k kinds.Kind) bool { return len(k.Judged) > 0 })
	there := withShop(r, func(k kinds.Kind) bool { return k.Got+k.Finished+k.Sold+k.Lost+k.InStock > 0 })
	if there == nil {
		return []page.Block{page.Paragraph{Text: "No piece came, was sold or is here in this time."}}
	}
	var out []page.Block
	if judged != nil {
		brought := page.Table{Caption: "What the pieces sold and lost brought", Whole: true,
			Columns: page.Heads{}.Wide(1, "Kind").
				Money("Receipts", words.SoldLessBought, words.BeforeShopCosts, "Median", "Lowest", "Highest")}
		kindRows(&brought, judged, func(k kinds.Kind) []page.Cell {
			return []page.Cell{cells.Money(k.Receipts), cells.Money(k.SoldLessBought), cells.Full(k.Result),
				cells.Optional(k.Median), cells.Optional(k.Least), cells.Optional(k.Most)}
		})
		brought.Note = "Sold less bought is receipts less what the pieces themselves cost. Profit before shop costs " +
			"takes off parts, supplies, selling costs and trips too, and adds what was received for lost ones. Median, " +
			"lowest and highest are of single pieces."
		rates := page.Table{Caption: "The same in proportion", Whole: true, Columns: page.Heads{}.Wide(1, "Kind").
			Number("Hours", "Margin").Money("Per " + in.Settings().AreaUnit() + " coated").Right("Sold at a loss")}
		kindRows(&rates, judged, func(k kinds.Kind) []page.Cell {
			return []page.Cell{cells.Hours(k.Hours), page.Number(words.Percent(k.Margin)), cells.Optional(k.PerCoated),
				page.Text(ofAll(k.AtALoss, k.Sold))}
		})
		rates.Note = "Margin is profit before shop costs ÷ receipts."
		out = append(out, brought, rates)
	}
	held := page.Table{Caption: "Came, went and is here", Whole: true, Columns: page.Heads{}.Wide(1, "Kind").
		Number("Got", "Finished", "Sold", "Lost", "In stock now").Money("Money tied up").Number("Hours in them")}
	kindRows(&held, there, func(k kinds.Kind) []page.Cell {
		return []page.Cell{cells.CountOrDash(k.Got), cells.CountOrDash(k.Finished), cells.CountOrDash(k.Sold),
			cells.CountOrDash(k.Lost), cells.CountOrDash(k.InStock), cells.Money(k.TiedUp), cells.Hours(k.TiedHours)}
	})
	held.Note = "Lost is scrapped or stolen. Kept, donated and returned ones came, and are neither sold nor lost."
	return append(out, held)
}

// ofAll is so many of how many.
func ofAll(n, of int) string {
	if of == 0 {
		return page.Dash
	}
	return fmt.Sprintf("%d of %d", n, of)
}

// kindsTime is how long each kind takes on its way to a buyer.
func kindsTime(in *report.Input, r kinds.Report) []page.Block {
	listed := withShop(r, func(k kinds.Kind) bool { return k.Listed > 0 || k.Held.N > 0 })
	if listed == nil {
		return []page.Block{page.Paragraph{Text: "No piece was listed or sold in this time."}}
	}
	t := page.Table{Columns: page.Heads{}.Wide(1, "Kind").Number("Listed").Right("Sold in 30 days").
		With(page.Column{Paper: true}).Right("in 60").With(page.Column{Paper: true}).Right("in 90").
		With(page.Column{Paper: true}).Right("Bench to listing").With(page.Column{Paper: true}).Right("Listing to sale").
		With(page.Column{Paper: true}).Right("Held in all").With(page.Column{Paper: true})}
	kindRows(&t, listed, func(k kinds.Kind) []page.Cell {
		cells := []page.Cell{cells.Count(k.Listed)}
		for _, s := range k.Estimate.Within {
			share, between := shareSold(s)
			cells = append(cells, page.Text(share), page.Text(between))
		}
		for _, d := range []kinds.Days{k.BenchToListed, k.ListedToSold, k.Held} {
			middle, ends := daysWords(d)
			cells = append(cells, page.Text(middle), page.Text(ends))
		}
		return cells
	})
	t.Note = fmt.Sprintf("Sold in so many days of listing, over all that were listed: those still here count as "+
		"unsold for as long as they have waited, up to %s, and those taken away unsold up to that day. "+
		"Pieces sold on one line count once. On paper, beside each share, between what it lies with nine chances in "+
		"ten. A dash: none has waited so long yet; 1 of 1 or 0 of 1: a single piece is all that is known. Days are "+
		"the middle one of the sold, and from the fewest to the most.", in.Day(r.End.Last()))
	if r.Unlisted > 0 {
		t.Note += fmt.Sprintf(" %s sold without a day of listing and left out of these shares.", words.Plural(r.Unlisted,
			"piece was", "pieces were"))
	}
	return []page.Block{t}
}

// shareSold is a share sold in time and where it lies; of a single piece it is
// no percentage.
func shareSold(s kinds.Sold) (share, between string) {
	switch {
	case !s.Known:
		return page.Dash, ""
	case s.Watched == 1:
		return fmt.Sprintf("%.0f of 1", s.Share), ""
	}
	return fmt.Sprintf("%.0f %%", 100*s.Share), fmt.Sprintf("%.0f–%.0f", 100*s.Low, 100*s.High)
}

// daysWords is the middle one, and the fewest and the most where they differ.
func daysWords(d kinds.Days) (middle, ends string) {
	switch {
	case d.N == 0:
		return page.Dash, ""
	case d.Least == d.Most:
		return fmt.Sprint(d.Median), ""
	}
	return fmt.Sprint(d.Median), fmt.Sprintf("%d–%d", d.Least, d.Most)
}

// kindsChannels is what each channel leaves of its receipts.
func kindsChannels(in *report.Input, r kinds.Report) []page.Block {
	if len(r.Channels) == 0 {
		return []page.Block{page.Paragraph{Text: "Nothing was sold anywhere in this time."}}
	}
	t := page.Table{Whole: true, Columns: page.Heads{}.Wide(1, "Channel").Number("Sold").
		Money("Receipts", "Costs there", "Left").Number("Of receipts").Money("A piece", "An hour")}
	for _, c := range r.Channels {
		t.Rows = append(t.Rows, channelRow(c))
	}
	everywhere := kinds.Everywhere(r.Channels)
	everywhere.Name = "Everywhere"
	total := channelRow(everywhere)
	total.Style, total.Note = page.Total, ""
	t.Rows = append(t.Rows, total)
	t.Note = "Left is before what the pieces cost; a piece, and an hour of work on the pieces sold there. Its rent " +
		"is every expense that names the channel, trips are those for pieces sold there. Part payments and refunds " +
		"count where and when they were made; clients' pieces are not in it."
	return []page.Block{t}
}

func channelRow(c kinds.Channel) page.Row {
	name := c.Name
	if name == "" {
		name = "No channel named"
	}
	var share *big.Rat
	if c.Receipts > 0 {
		share = new(big.Rat).Quo(c.Left.Rat(), c.Receipts.Rat())
	}
	row := page.Line(page.Text(name), cells.Count(c.Sold), cells.Money(c.Receipts), cells.Money(c.Receipts-c.Left),
		cells.Full(c.Left), page.Number(words.Percent(share)), cells.Optional(c.PerPiece), cells.Optional(c.PerHour))
	var parts []string
	for _, p := range []struct {
		what  string
		cents money.Cents
	}{{"fees", c.Fees}, {"delivery", c.Delivery}, {"its rent", c.Rent}, {"trips", c.Trips}} {
		if p.cents != 0 {
			parts = append(parts, p.what+" "+p.cents.Grouped())
		}
	}
	row.Note = strings.Join(parts, ", ")
	return row
}

// kindsClients is the work on clients' pieces, which is in no kind.
func kindsClients(in *report.Input, r kinds.Report) []page.Block {
	c := r.Clients
	if c.Done+c.InHand == 0 {
		return []page.Block{page.Paragraph{Text: "No client's piece was worked on in this time."}}
	}
	text := fmt.Sprintf("%s handed over, for %s, which left %s after their costs", words.Plural(c.Done,
		"client's piece was", "clients' pieces were"), in.Spoken(c.Receipts), in.Spoken(c.Result))
	if c.PerHour != nil {
		text += fmt.Sprintf(": %s an hour over %s", in.Spoken(*c.PerHour), words.Hours(c.Hours))
	}
	if c.Done == 0 {
		text = "No client's piece was handed over in this time"
	}
	if c.InHand > 0 {
		text += fmt.Sprintf("; %s in hand", words.Plural(c.InHand, "is", "are"))
	}
	return []page.Block{page.Paragraph{Text: text + ". Commissions are in no kind: nobody had to buy the piece or " +
		"find a buyer."}}
}

// kindsCoverage is what a container really does against what is stated.
func kindsCoverage(in *report.Input, r kinds.Report) []page.Block {
	if len(r.Coverage) == 0 {
		return []page.Block{page.Paragraph{Text: "No count has shown yet what a container does. Count what is left at " +
			"a month's end, in Counts; after that the shop's own figure is used."}}
	}
	t := page.Table{Columns: page.Heads{}.Wide(1, "Supply").Text("Shared by").
		Number("Own", "Stated", "Own, % of stated", "Counts").Text("From", "To").Money("Last price")}
	usual := false
	for _, c := range r.Coverage {
		stated, u := c.Stated()
		cell := cells.Number(stated, 1)
		if u {
			cell.Text += " *"
			usual = true
		}
		var share *big.Rat
		if stated != nil && stated.Sign() > 0 {
			share = new(big.Rat).Quo(c.Own, stated)
		}
		name := c.Supply.Name
		if c.Supply.Container != "" {
			name += ", " + c.Supply.Container
		}
		t.Add(page.Text(name), page.Text(sharedBy(in, c.Supply)), cells.Number(c.Own, 1), cell, cells.WholePercent(share),
			cells.Count(c.Spans), page.Text(words.ShortMonth(c.From)), page.Text(words.ShortMonth(c.To)),
			cells.Optional(c.Newest))
	}
	t.Note = "What one container does, over all counts from and to those months: what was done with it ÷ the " +
		"containers it took."
	if usual {
		t.Note += " * is a usual figure, where nothing is stated."
	}
	return []page.Block{t}
}

func sharedBy(in *report.Input, s *ledger.Supply) string {
	switch s.ShareBy {
	case ledger.ByHours:
		return "hours"
	case ledger.ByPieces:
		return "pieces"
	case ledger.ByBench:
		return "all " + in.Settings().AreaUnit()
	}
	return in.Settings().AreaUnit()
}

// kindsHow says how the figures are worked out, for readers who want to check.
func kindsHow(in *report.Input, r kinds.Report) []page.Block {
	text := fmt.Sprintf("Pieces that were sold, scrapped or stolen in this time (%s) count, each with all it cost and "+
		"brought up to the end of %s; a piece that came back is not sold.", r.Scope, r.End.Name()) +
		" Profit an hour is all of a kind's profit ÷ all of its hours, so long jobs count for more than short ones; " +
		"a piece lost before any work counts with its loss. A few sales may be luck, so the long-run average lies between " +
		"what the kind has brought and what the whole shop brings: the fewer its sales, and the more they differ, " +
		"the nearer to the shop's. It is a whole year's at today's prices: a trend and a season, alike in all kinds, " +
		"are taken off as far as the sales show them. Pieces of a kind that were sold on one line share a price and count " +
		"as one sale. All of it is estimates, rounded, and none of it is in the accounts."
	return []page.Block{page.Paragraph{Style: page.Note, Text: text}}
}
