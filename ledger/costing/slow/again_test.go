package slow

import (
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// estimated is a month without a count.
func (w *slowShelf) estimated(m calendar.Month) {
	now := w.usesIn(m)
	again := w.boughtAgain(m)
	per, basis := w.coverage(again)
	usual := slices.Clone(w.layers)
	taken, loss, short := w.giveBack(m, usual)
	usualDrawn, cost := w.want(now, per, usual)
	basis = basisOf(basis, per, now, usualDrawn)
	into, kept := w.share(now, usualDrawn, cost)
	shopped := len(w.lines(m, m, false))+len(w.lines(m, m, true)) > 0
	if again != nil && per == again && shopped {
		fresh := slices.Clone(w.start)
		freshTaken, freshLoss, freshShort := w.giveBack(m, fresh)
		sum := map[string]int64{}
		for k := w.begins(m); k <= m; k++ {
			lines := w.usesIn(k)
			drawn, cost := w.want(lines, per, fresh)
			into, kept := w.share(lines, drawn, cost)
			for i, l := range kept {
				sum[l.piece] += into[i]
			}
		}
		apart := new(big.Rat).Abs(minus(remains(fresh), remains(usual)))
		if short || apart.Cmp(big.NewRat(1, 4)) >= 0 {
			w.shortage, w.out.lost, w.out.basis = freshShort, freshLoss, ledger.FromBuying
			off(w.start, freshTaken)
			w.layers = fresh
			w.recharge(sum)
			w.charged = sum
			return
		}
	}
	w.shortage, w.out.lost, w.out.basis = short, loss, basis
	off(w.start, taken)
	w.layers = usual
	for i, l := range kept {
		w.out.into[l.piece] += into[i]
		w.charged[l.piece] += into[i]
	}
}

// basisOf is how a month's drawing was known.
func basisOf(basis ledger.Basis, per *big.Rat, lines []slowUse, drawn *big.Rat) ledger.Basis {
	weighed := slices.ContainsFunc(lines, func(l slowUse) bool { return !l.measured && l.weight.Sign() > 0 })
	switch {
	case drawn.Sign() == 0:
		return ledger.NoBasis
	case !weighed, per == nil && basis != ledger.UsedUp:
		return ledger.Measured
	}
	return basis
}

// want draws what a month's uses are taken to have used, at most what there is.
func (w *slowShelf) want(lines []slowUse, per *big.Rat, layers []slowLayer) (drawn *big.Rat, cost int64) {
	drawn = rat(0)
	any := false
	for _, l := range lines {
		switch {
		case l.measured:
			drawn, any = plus(drawn, l.weight), true
		case per != nil:
			drawn = plus(drawn, divide(l.weight, per))
		}
		any = any || l.weight.Sign() > 0
	}
	there := remains(layers)
	if w.s.UseAll && any {
		drawn = there
	}
	drawn = least(drawn, there)
	return drawn, drawFrom(layers, drawn)
}

// share is sharedCost for an uncounted month.
func (w *slowShelf) share(lines []slowUse, drawn *big.Rat, cost int64) ([]int64, []slowUse) {
	rest := drawn
	for _, l := range lines {
		if l.measured {
			rest = minus(rest, l.weight)
		}
	}
	into, kept, _ := sharedCost(cost, lines, rest, rat(0))
	return into, kept
}

// coverage is the first there is.
func (w *slowShelf) coverage(again *big.Rat) (*big.Rat, ledger.Basis) {
	switch {
	case w.s.UseAll:
		return nil, ledger.UsedUp
	case w.b.Settings.Coverage == "stated" && w.s.Coverage != nil:
		return w.s.Coverage, ledger.Stated
	case w.rests.Sign() > 0:
		return divide(w.weights, w.rests), ledger.FromOwn
	case again != nil:
		return again, ledger.FromBuying
	case w.s.Coverage != nil:
		return w.s.Coverage, ledger.Stated
	case w.s.Starting != nil:
		return w.s.Starting, ledger.Starting
	}
	return nil, ledger.NoBasis
}

// begins is the first month of the open span for buying again.
func (w *slowShelf) begins(m calendar.Month) calendar.Month {
	bought := w.lines(w.opened, m, false)
	if w.had.Sign() == 0 && len(bought) > 0 {
		return bought[0].On.InMonth()
	}
	return w.opened
}

// boughtAgain is the coverage that the latest purchases tell; nil where none.
func (w *slowShelf) boughtAgain(m calendar.Month) *big.Rat {
	from := w.begins(m)
	lines := slices.Concat(w.lines(from, m, false), w.lines(from, m, true))
	var counting []calendar.Date
	for day := from.First(); !day.After(m.Last()); day = day.AddDays(1) {
		net, onDay := rat(0), false
		for _, p := range lines {
			if !p.On.Before(day) {
				net = plus(net, p.Amount)
			}
			onDay = onDay || p.On == day && p.Amount.Sign() > 0
		}
		if onDay && net.Sign() > 0 {
			counting = append(counting, day)
		}
	}
	if len(counting) == 0 {
		return nil
	}
	latest := counting[len(counting)-1]
	d := counting[slices.IndexFunc(counting, func(day calendar.Date) bool { return !day.AddDays(7).Before(latest) })]
	weight, v := rat(0), w.had
	for k := from; k <= m; k++ {
		for _, l := range w.usesIn(k) {
			switch {
			case l.day == 0 && k < d.InMonth():
				weight = plus(weight, l.weight)
			case l.day == 0 && k == d.InMonth():
				weight = plus(weight, times(l.weight, big.NewRat(int64(d.Day-1), int64(k.Last().Day))))
			case l.day == 0, !(calendar.Date{Year: k.Year(), Month: k.Of(), Day: l.day}).Before(d):
			case l.measured:
				v = minus(v, l.weight)
			default:
				weight = plus(weight, l.weight)
			}
		}
	}
	size, on := rat(1), calendar.Date{}
	for _, p := range lines {
		if !p.On.Before(d) {
			continue
		}
		v = plus(v, p.Amount)
		holds := p.Holds
		if holds == nil {
			holds = rat(1)
		}
		if p.Amount.Sign() > 0 && (p.On.After(on) || p.On == on && holds.Cmp(size) > 0) {
			size, on = holds, p.On
		}
	}
	v = minus(v, divide(size, rat(2)))
	if weight.Sign() <= 0 || v.Sign() <= 0 {
		return nil
	}
	label := w.s.Coverage
	if label == nil {
		label = w.s.Starting
	}
	if label == nil {
		return divide(weight, v)
	}
	return divide(plus(weight, label), plus(v, rat(1)))
}
