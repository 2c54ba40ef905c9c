package costing

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Buying again. Who buys a can has little left of the last one, so a purchase
// tells what the cans before it did, as a count would. Where the contract's
// wording leaves room:
//
//   - `Bought before d` and `the size last bought before d` look at the open
//     span alone; where nothing was bought in it before d, half a container is
//     half of the supply's own.
//   - The month of the first purchase is that of the first line bought in the
//     span, even where all of it went back later.
//   - A month with a purchase or a take-back is estimated again even if nothing
//     was used in it: the coverage in force is the one used.
//   - Of the month's own uses each is posted by itself, as in any month; what the
//     fresh estimate moves on uses of the span's earlier months is one posting a
//     piece, dated the month's last day.

// roundDays is how near to the latest purchase day others count as one round of
// shopping.
const roundDays = 7

// openSpan is what the records say of a supply's open span up to and with this
// month. One that opened with nothing begins with its first purchase's month.
type openSpan struct {
	from      calendar.Month
	opened    *big.Rat          // containers there when it opened
	purchases []ledger.Purchase // and take-backs, by day
	lines     []Line
}

// openSpan gathers the open span, this month's uses with it; no more than when it
// opened where nothing was bought in it, which then tells nothing. It is to be
// called before the month's purchases are on the shelf.
func (d *shelfMonth) openSpan(now []Line) openSpan {
	o := openSpan{from: d.shelf.Opened, opened: left(d.shelf.Base)}
	o.purchases = d.purchasesIn(d.shelf.Opened, d.m)
	for _, p := range o.purchases {
		if p.On.InMonth() < d.m {
			o.opened = sub(o.opened, p.Amount)
		}
	}
	if len(o.purchases) == 0 {
		return o
	}
	bought := func(p ledger.Purchase) bool { return p.Amount.Sign() > 0 }
	if first := slices.IndexFunc(o.purchases, bought); first >= 0 && o.opened.Sign() == 0 {
		o.from = o.purchases[first].On.InMonth()
	}
	o.lines = slices.DeleteFunc(slices.Concat(d.shelf.Lines, now), func(l Line) bool { return l.Key.Month < o.from })
	return o
}

// lastRound is the first day of the latest shopping round: of the days on and
// after which more was bought than taken back, the first that lies no more than
// seven days before the latest. False where there is no such day.
func (o openSpan) lastRound() (calendar.Date, bool) {
	kept := zero // bought less taken back, from the day on
	var first, latest calendar.Date
	for i := len(o.purchases) - 1; i >= 0; {
		day, bought := o.purchases[i].On, false
		for ; i >= 0 && o.purchases[i].On == day; i-- {
			kept = add(kept, o.purchases[i].Amount)
			bought = bought || o.purchases[i].Amount.Sign() > 0
		}
		if !bought || kept.Sign() <= 0 {
			continue
		}
		if latest.IsZero() {
			latest = day
		}
		if latest.DaysSince(day) > roundDays {
			break
		}
		first = day
	}
	return first, !latest.IsZero()
}

// worked is the unmeasured weights and the measured amounts dated before a day.
// A month's weight counts whole in an earlier month, and in the day's own for
// the part of its days that lie before it.
func (o openSpan) worked(before calendar.Date) (weight, measured *big.Rat) {
	weight, measured = zero, zero
	month := before.InMonth()
	for _, l := range o.lines {
		part := l.Weight
		switch {
		case l.Key.Month > month || l.Key.Month == month && l.Key.Day >= before.Day:
			continue
		case l.Key.Month == month && l.Key.Day == 0:
			part = mul(part, big.NewRat(int64(before.Day-1), int64(month.Last().Day)))
		}
		if l.Measured {
			measured = add(measured, part)
		} else {
			weight = add(weight, part)
		}
	}
	return weight, measured
}

// halfLeft is what is taken to be left of the last can when another is bought:
// half of the largest size of the last day bought on before.
func (o openSpan) halfLeft(before calendar.Date) *big.Rat {
	size := big.NewRat(1, 1)
	var on calendar.Date
	for _, p := range o.purchases {
		if p.Amount.Sign() <= 0 || !p.On.Before(before) {
			continue
		}
		holds := p.Holds
		if holds == nil {
			holds = big.NewRat(1, 1)
		}
		if p.On.After(on) || holds.Cmp(size) > 0 {
			size, on = holds, p.On
		}
	}
	return quo(size, big.NewRat(2, 1))
}

// coverage is what buying again tells that a container does: (W + label) ÷
// (V + 1), W being the unmeasured weights before the latest round of shopping
// and V the containers that they took; W ÷ V without a label. Nil where W or V
// is not above zero. The label is the stated coverage, else the starting one.
func (o openSpan) coverage(label *big.Rat) *big.Rat {
	day, ok := o.lastRound()
	if !ok {
		return nil
	}
	w, measured := o.worked(day)
	v := sub(sub(o.opened, measured), o.halfLeft(day))
	for _, p := range o.purchases {
		if p.On.Before(day) {
			v = add(v, p.Amount)
		}
	}
	if w.Sign() <= 0 || v.Sign() <= 0 {
		return nil
	}
	if label == nil {
		return quo(w, v)
	}
	return quo(add(w, label), add(v, big.NewRat(1, 1)))
}

// learns says that no other coverage goes before what buying again tells.
func (d *shelfMonth) learns() bool {
	switch _, basis := d.shelf.Coverage(d.b.Settings.Coverage, d.s); {
	case basis == ledger.UsedUp, basis == ledger.FromOwn, basis == ledger.Stated && d.b.Settings.Coverage == "stated":
		return false
	}
	return true
}

// again estimates the span's months once more, oldest first, from the layers as
// they stood when it opened with all that was bought and taken back since.
func (d *shelfMonth) again(o openSpan, per *big.Rat) estimated {
	e := estimated{layers: slices.Clone(d.shelf.Base)}
	e.back = d.takeBacks(e.layers)
	rest := o.lines // they stand by month
	for m := o.from; m <= d.m; m++ {
		n := 0
		for n < len(rest) && rest[n].Key.Month == m {
			n++
		}
		e.months = append(e.months, d.drawMonth(rest[:n:n], e.layers, per))
		rest = rest[n:]
	}
	return e
}

// quarter of a container is the least that a fresh estimate must differ by from
// the usual one to be posted.
var quarter = big.NewRat(1, 4)

// differ says that two estimates leave at least a quarter of a container more
// or less: that much more or less is drawn in the span.
func differ(a, b []*Layer) bool {
	return new(big.Rat).Abs(sub(left(a), left(b))).Cmp(quarter) >= 0
}

// shopped says that something was bought or taken back this month.
func (d *shelfMonth) shopped() bool { return len(d.purchasesIn(d.m, d.m)) > 0 }

// boughtPlaces are the rows of this month's purchases and take-backs.
func (d *shelfMonth) boughtPlaces() []fault.Place {
	var out []fault.Place
	for _, p := range d.purchasesIn(d.m, d.m) {
		out = append(out, p.At)
	}
	return out
}

// postReestimate posts piece by piece what a fresh estimate of the span moves on
// uses of its earlier months; months has this one last.
func (d *shelfMonth) postReestimate(from calendar.Month, months []monthDrawing) {
	fresh := map[string]money.Cents{}
	for _, m := range months[:len(months)-1] {
		for i, l := range m.sharing {
			fresh[l.Key.Piece] += m.parts[i].Cents
		}
	}
	of := &ledger.Shared{Month: d.m, Reason: ledger.ReasonBoughtAgain, Supply: d.s.Name, Opened: from}
	for _, m := range months[:len(months)-1] {
		if m.of != nil {
			of.Months = append(of.Months, m.of)
		}
	}
	charged, bought := d.shelf.Charged.All(), d.boughtPlaces()
	for _, id := range keys(union(fresh, charged)) {
		before := charged[id]
		d.post(ledger.Posting{Date: d.m.Last(), Cents: fresh[id] - before, From: ledger.Shelf, To: ledger.Pieces, Piece: id,
			Supply: d.s.Name, Reason: ledger.ReasonBoughtAgain, Basis: ledger.FromBuying, Coated: d.coatedWith(d.s, id),
			Source: bought,
			How: ledger.Derivation{Method: ledger.Reestimated,
				Amounts: []ledger.Amount{{Name: ledger.AmountReestimated, Cents: fresh[id]}, {Name: ledger.AmountBefore,
					Cents: before}}},
			Of: of, Line: -1})
		d.moved(lateCost{ledger.ReasonBoughtAgain, d.s.Name, id, fresh[id] - before, bought[0]})
	}
	d.shelf.Charged = Overlay[money.Cents]{own: fresh}
	d.shelf.Reestimated = d.m
}

// lateCost is what a count, or buying a supply again, moved on a piece for its
// uses of earlier months.
type lateCost struct {
	by            ledger.Reason
	supply, piece string
	cents         money.Cents
	at            fault.Place // the count or purchase
}

// moved remembers what was moved on a piece that had left before the month; it
// may come back in it.
func (r *run) moved(l lateCost) {
	if l.cents != 0 && r.state.Pieces.Of(l.piece).Gone() {
		r.late = append(r.late, l)
	}
}

// noteFrom is the least late cost that is worth a note.
const noteFrom = 100

// tellLate tells in one line what all the month's counts, and in another what
// all its supplies bought again, moved on pieces that have left by its end, from
// 1.00 on in all, ups and downs both.
func (r *run) tellLate() {
	for _, by := range []ledger.Reason{ledger.ReasonRecount, ledger.ReasonBoughtAgain} {
		var sum, moved, most money.Cents
		var at fault.Place
		supplies, pieces := map[string]bool{}, map[string]bool{}
		for _, l := range r.late {
			if l.by != by || !r.state.Pieces.Of(l.piece).Gone() {
				continue
			}
			sum, moved = sum+l.cents, moved+l.cents.Abs()
			supplies[l.supply], pieces[l.piece] = true, true
			if l.cents.Abs() > most {
				most, at = l.cents.Abs(), l.at
			}
		}
		if moved < noteFrom {
			continue
		}
		total := sum.Grouped()
		if moved != sum.Abs() {
			total = fmt.Sprintf("%s up and down, %s in all,", moved.Grouped(), sum.Grouped())
		}
		what := map[ledger.Reason]string{ledger.ReasonRecount: "What was counted for",
			ledger.ReasonBoughtAgain: "What was bought again in"}[by]
		r.noteLate(at, moved, fmt.Sprintf("%s %s (%s) moves %s on %s, which %s left; this goes where %s went.", what,
			r.m.Name(),
			fault.Few(keys(supplies)), total, fault.Few(keys(pieces)),
			fault.Plural(len(pieces), "has", "have"), fault.Plural(len(pieces), "it", "they")),
			"Nothing to type; counting sooner keeps such corrections small.")
	}
}
