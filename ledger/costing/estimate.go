package costing

import (
	"cmp"
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
		from := drawing{drawn, sub(drawn, measured), weight}
		of := d.supplyCall(sharing, weights, parts, cost, from, nil, money.Part{})
		of.Drawn = taken
		for i, part := range parts {
			d.shelf.Charged[sharing[i].Key.Piece] += part.Cents
			d.postShare(sharing[i], part, weights[i], basis, of, i)
		}
	}
	d.shelf.Lines = append(d.shelf.Lines, lines...)
	d.tellShortage(lines, measured, want, available, per)
}

// drawing is what a share call shared, for telling how a share was reached.
type drawing struct {
	drawn  *big.Rat // containers
	rest   *big.Rat // of them, neither measured nor lost
	weight *big.Rat // Σ of the weights that share the rest
}

// postShare posts an estimated or measured share of one line.
func (d *shelfMonth) postShare(l Line, part money.Part, containers *big.Rat, basis ledger.Basis, of *ledger.Shared, line int) {
	if l.Measured && basis != ledger.Counted {
		basis = ledger.Measured
	}
	how := ledger.Derivation{Method: ledger.UsedSupply, Quantity: containers}
	if !l.Measured {
		how.Weight = l.Weight
	}
	d.post(ledger.Posting{Date: d.dateOf(l.Key), Cents: part.Cents, From: ledger.Shelf, To: ledger.Pieces, Piece: l.Key.Piece,
		Supply: d.s.Name, Reason: ledger.ReasonSupply, Basis: basis, Coated: d.coatedWith(d.s, l.Key.Piece), Source: l.Source,
		How: how, Of: of, Line: line})
}

// supplyCall remembers how the cost of what was drawn was shared. Weights are
// containers; where all lines share by the same thing and nothing was lost,
// that thing, which stands in the records, tells more.
func (d *shelfMonth) supplyCall(lines []Line, weights []*big.Rat, parts []money.Part, cost money.Cents, from drawing, lossWeight *big.Rat, loss money.Part) *ledger.Shared {
	s := &ledger.Shared{Reason: ledger.ReasonSupply, Supply: d.s.Name, Total: cost, By: ledger.ByContainers, Unit: d.s.Container}
	by, unit := d.sharedBy()
	s.Draw = ledger.Draw{Container: d.s.Container, Size: d.s.Size, Containers: from.drawn, Rest: from.rest, By: by, Unit: unit, Weight: from.weight}
	if lossWeight == nil && len(lines) > 0 && !slices.ContainsFunc(lines, func(l Line) bool { return l.Measured }) {
		s.By, s.Unit = by, unit
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

// sharedBy is what the supply's weights are, and the unit of areas.
func (d *shelfMonth) sharedBy() (ledger.ShareBy, string) {
	switch d.s.ShareBy {
	case ledger.ByHours, ledger.ByPieces:
		return d.s.ShareBy, ""
	}
	return cmp.Or(d.s.ShareBy, ledger.ByArea), d.b.Settings.AreaUnit()
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
