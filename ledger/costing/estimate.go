package costing

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// estimate draws what the month's uses are taken to have used, at most what is
// there, and shares its cost over them; where a purchase or take-back shows that
// earlier estimates were off, it estimates the whole open span again.
func (d *shelfMonth) estimate() {
	now := append(d.measured(d.s), d.weights(d.s)...)
	var span openSpan
	d.shelf.Bought = nil
	learns := d.learns()
	if learns {
		span = d.openSpan(now)
	}
	d.buy()
	if learns {
		d.shelf.Bought = span.coverage(cmp.Or(d.s.Coverage, d.s.Starting))
	}
	per, basis := d.shelf.Coverage(d.b.Settings.Coverage, d.s)
	e := d.asUsual(now, per)
	changed := false
	if basis == ledger.FromBuying && d.shopped() {
		again := d.again(span, per)
		if changed = e.back.missing() || differ(again.layers, e.layers); changed {
			e = again
		}
	}
	month := e.months[len(e.months)-1]
	switch {
	case changed:
	case month.drawn.Sign() == 0:
		basis = ledger.NoBasis
	case month.weight.Sign() == 0 || per == nil && !d.s.UseAll:
		basis = ledger.Measured
	}
	d.basis[d.s.Name] = basis
	d.postTakeBacks(e.back)
	if changed {
		d.postReestimate(span.from, e.months)
	}
	d.postMonth(month, basis)
	d.shelf.Layers = e.layers
	d.shelf.Lines = append(d.shelf.Lines, now...)
}

// estimated is a way to estimate the month: the layers as it leaves them, what
// went back off them before, and what was drawn, this month's last.
type estimated struct {
	layers []*Layer
	back   takenBacks
	months []monthDrawing
}

// asUsual estimates the month from what earlier estimates left.
func (d *shelfMonth) asUsual(now []Line, per *big.Rat) estimated {
	e := estimated{layers: d.shelf.Layers}
	if len(now) > 0 || d.shopped() {
		e.layers = slices.Clone(e.layers)
	}
	e.back = d.takeBacks(e.layers)
	e.months = []monthDrawing{d.drawMonth(now, e.layers, per)}
	return e
}

// monthDrawing is one month's drawing by an estimate, and its shares.
type monthDrawing struct {
	drawing
	lines   []Line // the month's uses
	sharing []Line // those that share, in order
	weights []*big.Rat
	parts   []money.Part
	of      *ledger.Shared
	want    *big.Rat // what the uses are taken to have used
	there   *big.Rat // what there was
	per     *big.Rat
}

// drawMonth draws on the layers what the uses of a month are taken to have
// used by a coverage, at most what is there, and shares its cost over them.
func (d *shelfMonth) drawMonth(lines []Line, layers []*Layer, per *big.Rat) monthDrawing {
	measured, weight, anyMeasured := totals(lines)
	out := monthDrawing{lines: lines, want: measured, there: left(layers), per: per}
	switch {
	case d.s.UseAll && (weight.Sign() > 0 || anyMeasured):
		out.want = out.there
	case per != nil && per.Sign() > 0:
		out.want = add(measured, quo(weight, per))
	}
	drawn := lesser(out.want, out.there)
	cost, taken := draw(layers, drawn)
	out.drawing = drawing{drawn, sub(drawn, measured), weight}
	out.sharing, out.weights = spread(lines, out.rest)
	if len(out.sharing) > 0 {
		out.parts, _ = charge(cost, out.weights, nil)
		out.of = d.supplyCall(out.sharing, out.weights, out.parts, cost, out.drawing, nil, money.Part{})
		out.of.Drawn = taken
	}
	return out
}

// postMonth posts the shares of this month's drawing, and notes what it lacked.
func (d *shelfMonth) postMonth(m monthDrawing, basis ledger.Basis) {
	charged := map[string]money.Cents{}
	for i, part := range m.parts {
		piece := m.sharing[i].Key.Piece
		if _, known := charged[piece]; !known {
			charged[piece] = d.shelf.Charged.Of(piece)
		}
		charged[piece] += part.Cents
		d.postShare(m.sharing[i], part, m.weights[i], basis, m.of, i)
	}
	d.shelf.Charged = d.shelf.Charged.With(charged)
	d.tellShortage(m)
}

// drawing is what a share call shared, for telling how a share was reached.
type drawing struct {
	drawn  *big.Rat // containers
	rest   *big.Rat // of them, neither measured nor lost
	weight *big.Rat // Σ of the weights that share the rest
}

// postShare posts an estimated or measured share of one line.
func (d *shelfMonth) postShare(l Line, part money.Part, containers *big.Rat, basis ledger.Basis, of *ledger.Shared,
	line int) {
	if l.Measured && basis != ledger.Counted {
		basis = ledger.Measured
	}
	how := ledger.Derivation{Method: ledger.UsedSupply, Quantity: containers}
	if !l.Measured {
		how.Weight = l.Weight
	}
	d.post(ledger.Posting{Date: d.dateOf(l.Key), Cents: part.Cents, From: ledger.Shelf, To: ledger.Pieces,
		Piece:  l.Key.Piece,
		Supply: d.s.Name, Reason: ledger.ReasonSupply, Basis: basis, Coated: d.coatedWith(d.s, l.Key.Piece), Source: l.Source,
		How: how, Of: of, Line: line})
}

// supplyCall remembers how the cost of what was drawn was shared. Weights are
// containers; where all lines share by the same thing and nothing was lost,
// that thing, which stands in the records, tells more.
func (d *shelfMonth) supplyCall(lines []Line, weights []*big.Rat, parts []money.Part, cost money.Cents, from drawing,
	lossWeight *big.Rat, loss money.Part) *ledger.Shared {
	s := &ledger.Shared{Reason: ledger.ReasonSupply, Supply: d.s.Name, Total: cost, By: ledger.ByContainers,
		Unit: d.s.Container}
	by, unit := d.sharedBy()
	s.Draw = ledger.Draw{Container: d.s.Container, Size: d.s.Size, Containers: from.drawn, Rest: from.rest, By: by,
		Unit: unit, Weight: from.weight}
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
func (d *shelfMonth) tellShortage(m monthDrawing) {
	if len(m.lines) == 0 {
		return
	}
	at := m.lines[0].Source[0]
	if m.per == nil && !d.s.UseAll && m.weight.Sign() > 0 {
		d.note(fault.NoCoverage, d.s.At.At("coverage"), d.shelf.Cents(),
			fmt.Sprintf("%s was used, and nothing says how much one container does, so only measured uses of it were "+
				"costed.", d.s.Name),
			fmt.Sprintf("Type what one container of %s covers under Coverage in Supplies, or count it at the month's end in "+
				"Counts.", d.s.Name))
	}
	if m.want.Cmp(m.there) <= 0 || len(d.shelf.Layers) == 0 {
		return
	}
	short := sub(m.want, m.there)
	why := fmt.Sprintf("The uses of %s in %s want %s more than is left of it.", d.s.Name, d.m.Name(),
		containersInShort(short, d.s))
	if u := d.largestBare(); u != nil {
		at, why = u.At.At("amount"), why+likeUnits(u.Amount, d.s)
	}
	d.note(fault.UsedMore, at, d.worth(short), why,
		fmt.Sprintf("Enter the purchase of %s that is missing, or count it at the month's end in Counts.", d.s.Name))
}

// worth is what an amount is worth at the newest layer's cost.
func (d *shelfMonth) worth(amount *big.Rat) money.Cents {
	last := d.shelf.Layers[len(d.shelf.Layers)-1]
	if last.Amount.Sign() == 0 {
		return 0
	}
	return money.Round(quo(mul(last.Cents.Rat(), amount), last.Amount))
}
