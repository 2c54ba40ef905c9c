package month

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// longestBar is where a bar of own against stated coverage ends, in per cent: one
// that is far off must not make the others too short to compare.
const longestBar = 300

// hundred is for percentages.
var hundred = big.NewRat(100, 1)

// shelf is each supply with what was there, came, went and is left, its own
// coverage against the stated one, and a mark where to buy or to count.
func shelf(in *report.Input) []page.Block {
	if len(in.Month.Shelf) == 0 {
		return nil
	}
	scale := page.ScaleOf(100)
	scale.Lines = []page.Level{{At: 100, Label: "stated"}}
	t := page.Table{Columns: page.Heads{}.Wide(1, "Supply").Money("Opening", "Bought", "Used", "Lost", "Worth").
		Number("Left", "Own", "Stated").Drawn(0, scale, "").Text("Known", "Do", "Care")}
	marks := shelfMarks(in)
	for _, by := range sharedBy(in) {
		if by.many {
			t.AddStyled(page.Group, page.Text(by.head))
		}
		for _, l := range by.lines {
			t.Rows = append(t.Rows, shelfRow(in, l, scale, marks[l.Supply.Name]))
		}
	}
	t.AddSum(page.GrandTotal, "The whole shelf", "Opening", "Bought", "Used", "Lost", "Worth")
	t.Note = shelfNote(in, scale)
	out := []page.Block{cells.WithoutBlank(t, "Do", "Care", "Lost", "Own", "")}
	for _, by := range []ledger.Reason{ledger.ReasonRecount, ledger.ReasonBoughtAgain} {
		if text := movedBy(in, by); len(text) > 0 {
			out = append(out, page.Says(page.Body, text))
		}
	}
	return out
}

// shelfNote says what the columns of the shelf are.
func shelfNote(in *report.Input, scale *page.Scale) string {
	text := "Left is in containers; own (from counts or, where known is bought, from buying again) and stated are what " +
		"one container does, " + shelfUnits(in) + "."
	known := words.BasesMean(func(b ledger.Basis) bool {
		return slices.ContainsFunc(in.Month.Shelf, func(l figures.ShelfLine) bool { return l.Basis == b })
	})
	if known != "" {
		text += " How the month's use is known: " + known + "."
	}
	text += " Buy: less is left than a usual month of the last quarter took."
	if len(shelfCautions(in)) > 0 {
		text += " Care: letters of the cautions at the end of this report."
	}
	if scale.Hi >= longestBar {
		text += " Bars end at three times what is stated."
	}
	return text
}

// shelfRow is one supply's line.
func shelfRow(in *report.Input, l figures.ShelfLine, scale *page.Scale, mark string) page.Row {
	name := l.Supply.Name
	if l.Supply.Container != "" {
		name += ", " + words.Unbroken(l.Supply.Container)
	}
	stated := cells.Number(l.Supply.Coverage, coverageDecimals(in))
	if l.Supply.UseAll {
		stated = page.Number("all")
	}
	own, drawn := l.Own, page.Empty()
	if l.Basis == ledger.FromBuying {
		own = l.Again
	}
	if own != nil && l.Supply.Coverage != nil && l.Supply.Coverage.Sign() > 0 {
		of := new(big.Rat).Quo(own, l.Supply.Coverage)
		at, _ := of.Mul(of, hundred).Float64()
		at = min(at, longestBar)
		*scale = page.Scale{Lo: scale.Lo, Hi: max(scale.Hi, at), Lines: scale.Lines}
		drawn = page.Draw(page.Drawn{Bar: &page.Interval{To: at}, Pale: true})
	}
	return page.Row{Anchor: report.SupplyAnchor(l.Supply.Name), Cells: slices.Concat([]page.Cell{page.Text(name)},
		in.ShelfCells(l), []page.Cell{cells.Number(l.Left, 2), cells.Number(own, coverageDecimals(in)), stated, drawn,
			page.Text(words.Basis[l.Basis]), page.Text(mark), page.Text(careLetters(in, l.Supply))})}
}

// coverageDecimals is how exactly coverages are printed: square metres are
// larger than square feet.
func coverageDecimals(in *report.Input) int {
	if in.Settings().Metric() {
		return 1
	}
	return 0
}

// shelfGroup is supplies shared in one way.
type shelfGroup struct {
	head  string
	lines []figures.ShelfLine
	many  bool // there are other groups
}

// sharedBy are the month's supplies by what they are shared by, which is what
// their coverages are in.
func sharedBy(in *report.Input) []shelfGroup {
	area := in.Settings().AreaUnit()
	groups := []shelfGroup{{head: "Shared by area coated, in " + area}, {head: "Shared by area coated in all, " +
		"in " + area}, {head: "Shared by hours"}, {head: "Shared by pieces"}}
	for _, l := range in.Month.Shelf {
		i := slices.Index([]ledger.ShareBy{ledger.ByArea, ledger.ByBench, ledger.ByHours, ledger.ByPieces}, l.Supply.ShareBy)
		groups[max(0, i)].lines = append(groups[max(0, i)].lines, l)
	}
	groups = slices.DeleteFunc(groups, func(g shelfGroup) bool { return len(g.lines) == 0 })
	for i := range groups {
		groups[i].many = len(groups) > 1
	}
	return groups
}

func shelfUnits(in *report.Input) string {
	if len(sharedBy(in)) > 1 {
		return "in what its group is shared by"
	}
	return "in " + in.Settings().AreaUnit()
}

// The marks of the shelf.
const (
	markBuy   = "buy"
	markCount = "count"
)

// shelfMarks says of each supply that is to be bought or counted which it is.
func shelfMarks(in *report.Input) map[string]string {
	out := map[string]string{}
	for _, b := range toBuy(in) {
		out[b.supply] = markBuy
	}
	for _, c := range in.Count {
		out[c.Supply.Name] = strings.TrimPrefix(out[c.Supply.Name]+", "+markCount, ", ")
	}
	return out
}

// careLetters are the letters of the cautions that a supply calls for.
func careLetters(in *report.Input, s *ledger.Supply) string {
	var out []string
	for _, c := range shelfCautions(in) {
		if c.Of(s) {
			out = append(out, c.Letter)
		}
	}
	return strings.Join(out, " ")
}

// shelfCautions are the cautions that any supply on the shelf calls for,
// whatever piece it is used on.
func shelfCautions(in *report.Input) []report.Caution {
	var out []report.Caution
	for _, c := range in.LetteredCautions() {
		if c.Usual != nil && c.Usual.When.MadeBefore != 0 {
			continue
		}
		if slices.ContainsFunc(in.Month.Shelf, func(l figures.ShelfLine) bool { return c.Of(l.Supply) }) {
			out = append(out, c)
		}
	}
	return out
}

// movedBy says how much the month's counts, or supplies bought again, moved of
// what earlier months' uses cost; empty where they moved nothing.
func movedBy(in *report.Input, by ledger.Reason) page.Sentence {
	doing := map[ledger.Reason]string{ledger.ReasonRecount: "Counting", ledger.ReasonBoughtAgain: "Buying again"}[by]
	up, down := &report.Listed{Title: doing + ": put on pieces"}, &report.Listed{Title: doing + ": took off pieces"}
	supplies := map[string]bool{}
	for p := range in.InMonth() {
		if p.Reason != by {
			continue
		}
		supplies[p.Supply] = true
		if p.Cents > 0 {
			up.Add(p, 1)
		} else {
			down.Add(p, -1)
		}
	}
	if len(supplies) == 0 {
		return nil
	}
	text := page.Say(doing + " " + words.Plural(len(supplies), "supply", "supplies") + " ")
	if c := up.Total(); c != 0 {
		text = append(text, page.Say("put %s more on pieces", in.Said(c, up))...)
	}
	if up.Total() != 0 && down.Total() != 0 {
		text = append(text, page.Text(" and "))
	}
	if c := down.Total(); c != 0 {
		text = append(text, page.Say("took %s off pieces", in.Said(c, down))...)
	}
	return append(text, page.Text(", for what was used in earlier months."))
}
