package costing

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// coverage is what one container is taken to do this month, and where that
// comes from: own counts first (unless the settings put the stated first),
// then what the Supplies row says, then the group's usual figure.
func (d *shelfMonth) coverage() (*big.Rat, ledger.Basis) {
	if d.s.UseAll {
		return nil, ledger.UsedUp
	}
	own := d.shelf.OwnCoverage()
	switch {
	case d.b.Settings.Coverage == "stated" && d.s.Coverage != nil:
		return d.s.Coverage, ledger.Stated
	case own != nil:
		return own, ledger.FromOwn
	case d.s.Coverage != nil:
		return d.s.Coverage, ledger.Stated
	case d.s.Starting != nil:
		return d.s.Starting, ledger.Starting
	}
	return nil, ledger.NoBasis
}

// estimate draws what the month's uses are taken to have used, at most what
// is there, and shares its cost over them.
func (d *shelfMonth) estimate() {
	lines := append(d.measured(d.s), d.weights(d.s)...)
	measured, weight, anyMeasured := totals(lines)
	available := d.shelf.Left()
	per, basis := d.coverage()
	want := measured
	switch {
	case d.s.UseAll && (weight.Sign() > 0 || anyMeasured):
		want = available
	case per != nil && per.Sign() > 0:
		want = add(measured, quo(weight, per))
	}
	drawn := lesser(want, available)
	if weight.Sign() == 0 || per == nil && !d.s.UseAll {
		basis = ledger.Measured
	}
	d.basis[d.s.Name] = basis
	if drawn.Sign() == 0 {
		d.basis[d.s.Name] = ledger.NoBasis
	}
	cost, taken := draw(d.shelf.Layers, drawn)
	sharing, weights := spread(lines, sub(drawn, measured))
	if len(sharing) > 0 {
		parts, _ := charge(cost, weights, nil)
		from := drawing{cost, drawn, measured, zero, weight, d.m.Name()}
		of := d.supplyCall(sharing, weights, parts, cost, nil, money.Part{})
		of.Drawn = taken
		for i, part := range parts {
			d.shelf.Charged[sharing[i].Key.Piece] += part.Cents
			d.postShare(sharing[i], part, weights[i], from, basis, of, i)
		}
	}
	d.shelf.Lines = append(d.shelf.Lines, lines...)
	d.tellShortage(lines, measured, want, available, per)
}

// drawing is what a share call shared, for telling how a share was reached.
type drawing struct {
	cost     money.Cents
	drawn    *big.Rat // containers
	measured *big.Rat // of them, by measured uses
	lost     *big.Rat // of them, discarded or with nobody to bear them
	weight   *big.Rat // Σ of the weights that share the rest
	when     string
}

// postShare posts an estimated or measured share of one line.
func (d *shelfMonth) postShare(l Line, part money.Part, containers *big.Rat, from drawing, basis ledger.Basis, of *ledger.Shared, line int) {
	if l.Measured && basis != ledger.Counted {
		basis = ledger.Measured
	}
	d.post(ledger.Posting{Date: d.dateOf(l.Key), Cents: part.Cents, From: ledger.Shelf, To: ledger.Pieces, Piece: l.Key.Piece,
		Supply: d.s.Name, Reason: ledger.ReasonSupply, Basis: basis, Coated: d.coatedWith(d.s, l.Key.Piece), Source: l.Source,
		Arithmetic: d.shareWords(l, part, containers, from), Of: of, Line: line})
}

// supplyCall remembers how the cost of what was drawn was shared. Weights are
// containers; where all lines share by the same thing and nothing was lost,
// that thing, which stands in the records, tells more.
func (d *shelfMonth) supplyCall(lines []Line, weights []*big.Rat, parts []money.Part, cost money.Cents, lossWeight *big.Rat, loss money.Part) *ledger.Shared {
	s := ledger.Shared{Reason: ledger.ReasonSupply, Supply: d.s.Name, Total: cost, Unit: "containers of " + d.s.Container}
	if lossWeight == nil && len(lines) > 0 && !slices.ContainsFunc(lines, func(l Line) bool { return l.Measured }) {
		s.Unit = d.unitOfSharing()
		weights = make([]*big.Rat, len(lines))
		for i, l := range lines {
			weights[i] = l.Weight
		}
	}
	ids := make([]string, len(lines))
	for i, l := range lines {
		ids[i] = l.Key.Piece
	}
	if lossWeight != nil {
		weights, parts = append(slices.Clone(weights), lossWeight), append(slices.Clone(parts), loss)
	}
	of := d.sharing(s, ids, weights, parts)
	for i, l := range lines {
		of.Lines[i].Month = l.Key.Month
	}
	return of
}

// shareWords is a share's arithmetic for a pocket calculator: the piece's part
// of the whole, as a percentage of the cost, and the cents.
func (d *shelfMonth) shareWords(l Line, part money.Part, amount *big.Rat, from drawing) string {
	percent := "0.00"
	if from.drawn.Sign() > 0 {
		percent = money.Fixed(quo(mul(amount, big.NewRat(100, 1)), from.drawn), 2)
	}
	var what string
	rest := sub(sub(from.drawn, from.measured), from.lost)
	switch {
	case l.Measured:
		what = fmt.Sprintf("%s measured of %s drawn in %s", inUnits(amount, d.s), measuredOut(from.drawn, d.s), from.when)
	case rest.Cmp(from.drawn) == 0:
		what = fmt.Sprintf("%s of %s %s in %s", d.weightText(l.Weight), d.weightText(from.weight), d.unitOfSharing(), from.when)
	default:
		what = fmt.Sprintf("%s of %s %s in %s, sharing %s of the %s drawn", d.weightText(l.Weight), d.weightText(from.weight),
			d.unitOfSharing(), from.when, inUnits(rest, d.s), measuredOut(from.drawn, d.s))
	}
	return fmt.Sprintf("%s, %s: %s, %s %% of %s = %s%s", d.s.Name, d.s.Container, what, percent, from.cost.Grouped(), part.Cents.Grouped(), extra(part))
}

// weightText prints areas to 0.01, hours and pieces as they are.
func (d *shelfMonth) weightText(w *big.Rat) string {
	if d.s.ShareBy == ledger.ByHours || d.s.ShareBy == ledger.ByPieces {
		return money.AtMost(w, 4)
	}
	return money.Fixed(w, 2)
}

// unitOfSharing is the word behind a weight.
func (d *shelfMonth) unitOfSharing() string {
	switch d.s.ShareBy {
	case ledger.ByHours:
		return "hours"
	case ledger.ByPieces:
		return "pieces worked on"
	case ledger.ByBench:
		return d.b.Settings.AreaUnit() + " coated with all supplies"
	}
	return d.b.Settings.AreaUnit() + " coated"
}

// tellShortage notes uses that nothing could be drawn for.
func (d *shelfMonth) tellShortage(lines []Line, measured, want, available, per *big.Rat) {
	if len(lines) == 0 {
		return
	}
	at := lines[0].Source[0]
	_, weight, _ := totals(lines)
	if per == nil && !d.s.UseAll && weight.Sign() > 0 {
		d.note(CodeNoCoverage, d.s.At.At("coverage"), d.shelf.Cents(),
			fmt.Sprintf("%s was used in %s, and nothing says how much one container does, so only measured uses of it were costed.", d.s.Name, d.m.Name()),
			"Type what one container covers under Coverage in Supplies, or count it at the month's end in Counts.")
	}
	if want.Cmp(available) <= 0 || len(d.shelf.Layers) == 0 {
		return
	}
	short := sub(want, available)
	why := fmt.Sprintf("The uses of %s in %s want %s more than is left of it.", d.s.Name, d.m.Name(), containers(short, d.s))
	if u := d.largestBare(); u != nil {
		at, why = u.At.At("amount"), why+likeUnits(u.Amount, d.s)
	}
	d.note(CodeUsedMore, at, d.worth(short), why,
		fmt.Sprintf("Enter the purchase that is missing, or count %s at the month's end in Counts.", d.s.Name))
}

// worth is what an amount is worth at the newest layer's cost.
func (d *shelfMonth) worth(amount *big.Rat) money.Cents {
	last := d.shelf.Layers[len(d.shelf.Layers)-1]
	if last.Amount.Sign() == 0 {
		return 0
	}
	return money.Round(quo(mul(last.Cents.Rat(), amount), last.Amount))
}
