package missing

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

var (
	half    = big.NewRat(1, 2)
	quarter = big.NewRat(1, 4)
	// farTimes is how many times what the uses explain, or that part of it, must
	// be gone for a count to be far off.
	farTimes = big.NewRat(3, 2)
	// plenty is how many containers must be left for buying again to surprise.
	plenty = big.NewRat(3, 2)
)

// counted looks at what the month's counts found gone.
func (k *month) counted() {
	last, discarded := map[string]*ledger.Count{}, map[string]*big.Rat{}
	for c := range ledger.Each(k.b.Counts) {
		if c.Closes() != k.m {
			continue
		}
		if at := last[c.Supply]; at == nil || c.On.After(at.On) || c.On == at.On && c.At.Compare(at.At) > 0 {
			last[c.Supply] = c
		}
		if discarded[c.Supply] == nil {
			discarded[c.Supply] = new(big.Rat)
		}
		discarded[c.Supply].Add(discarded[c.Supply], money.OrZero(c.Discarded))
	}
	for supply, c := range last {
		k.goneFar(k.supply[supply], c)
	}
	for p := range ledger.Each(k.Postings) {
		if p.Reason == ledger.ReasonDiscarded && last[p.Supply] != nil {
			k.unexplained(p, last[p.Supply], discarded[p.Supply])
		}
	}
}

// goneFar compares what a count found gone with what the span's uses explain by
// the coverage of the counts before it.
func (k *month) goneFar(s *ledger.Supply, c *ledger.Count) {
	before, after := k.before.Shelf[c.Supply], k.Closing.Shelf[c.Supply]
	own := before.OwnCoverage()
	if s == nil || own == nil || s.UseAll {
		return
	}
	gone := new(big.Rat).Sub(after.PoolRest, before.PoolRest)
	weight := new(big.Rat).Sub(after.PoolWeight, before.PoolWeight)
	if gone.Sign() <= 0 || weight.Sign() <= 0 {
		return
	}
	explained := new(big.Rat).Quo(weight, own)
	off := new(big.Rat).Sub(gone, explained)
	moves := k.worth(k.m, new(big.Rat).Abs(off), s.Name)
	if new(big.Rat).Abs(off).Cmp(quarter) < 0 || moves < noteFrom {
		return
	}
	held := fmt.Sprintf("By this count %s of %s went on uses since %s, and by the shop's own coverage they explain %s",
		k.containers(gone, s), s.Name, before.Opened.Name(), k.containers(explained, s))
	switch {
	case gone.Cmp(new(big.Rat).Mul(explained, farTimes)) > 0:
		k.note(k.m, fault.CodeGoneMore, c.At.At("left"), "", held+"."+k.withoutUse(s, before.Opened),
			fmt.Sprintf("Enter the uses of %s that are missing, what dried out or was spilt under Discarded, or correct Left.",
				s.Name), moves)
	case explained.Cmp(new(big.Rat).Mul(gone, farTimes)) > 0:
		k.note(k.m, fault.CodeGoneLess, c.At.At("left"), "", held+".",
			fmt.Sprintf("Correct Left, the coats or areas of the uses of %s, or enter the purchase that is missing; "+
				"otherwise leave it.", s.Name), moves)
	}
}

// withoutUse names the pieces worked on since a month that have no use of a
// supply; a sentence with a blank before it, or nothing.
func (k *month) withoutUse(s *ledger.Supply, since calendar.Month) string {
	if !byUses(s) {
		return ""
	}
	lacking := map[string]bool{}
	for r := range k.b.Records() {
		if r.Table != "hours" && r.Table != "uses" || r.Month < since || r.Month > k.m {
			continue
		}
		for _, id := range r.Pieces {
			if !k.had[id][s.Name] {
				lacking[id] = true
			}
		}
	}
	if len(lacking) == 0 {
		return ""
	}
	names := slices.Sorted(maps.Keys(lacking))
	return fmt.Sprintf(" Worked on since then and without a use of it: %s.", fault.Few(names))
}

// unexplained tells the part of a count's loss that was not discarded.
func (k *month) unexplained(p *ledger.Posting, c *ledger.Count, discarded *big.Rat) {
	lost := money.OrZero(p.How.Quantity)
	rest := new(big.Rat).Sub(lost, discarded)
	if rest.Sign() <= 0 || lost.Sign() <= 0 {
		return
	}
	moves := money.Round(new(big.Rat).Mul(p.Cents.Rat(), new(big.Rat).Quo(rest, lost)))
	s := k.supply[p.Supply]
	if s == nil || moves < noteFrom {
		return
	}
	why := fmt.Sprintf("This count makes a loss of %s of %s", k.containers(lost, s), s.Name)
	if discarded.Sign() > 0 {
		why += fmt.Sprintf(", of which %s was discarded", k.containers(discarded, s))
	}
	k.note(k.m, fault.CodeLossUnexplained, c.At.At("discarded"), "",
		fmt.Sprintf("%s. No use explains the other %s, %s.", why, k.containers(rest, s), k.amount(moves)),
		fmt.Sprintf("Enter the uses of %s that are missing in Uses, or correct Left; leave it if it dried out or was spilt.",
			s.Name), moves)
}

// boughtEarly notes a supply bought again while much of it was left by the
// shop's own coverage, which does not learn from buying.
func (k *month) boughtEarly() {
	first := map[string]*ledger.Purchase{}
	for p := range ledger.Each(k.b.Purchases) {
		if p.On.InMonth() == k.m && p.Amount.Sign() > 0 && (first[p.Supply] == nil || p.On.Before(first[p.Supply].On)) {
			first[p.Supply] = p
		}
	}
	for name, p := range first {
		s, shelf := k.supply[name], k.before.Shelf[name]
		if s == nil || k.closing.Shelf[name].Counted >= k.m || shelf.Opened >= k.m {
			continue
		}
		if _, basis := shelf.Coverage(k.b.Settings.Coverage, s); basis != ledger.FromOwn {
			continue
		}
		left := shelf.Left()
		over := new(big.Rat).Sub(left, half)
		moves := k.worth(k.m, over, name)
		// Half as much again as has gone since the count must have gone unseen.
		if left.Cmp(plenty) < 0 || new(big.Rat).Mul(over, big.NewRat(2, 1)).Cmp(k.drawnSince(name, shelf.Opened)) < 0 ||
			moves < noteFrom {
			continue
		}
		k.note(k.m, fault.CodeBoughtEarly, p.At.At("supply"), name,
			fmt.Sprintf("By the shop's own coverage %s of %s was left when this was bought.%s", k.containers(left, s), name,
				k.withoutUse(s, shelf.Opened)),
			"Count it and type what is left in Counts, or enter the uses that are missing; leave it if it was bought ahead.",
			moves)
	}
}

// drawnSince is the containers of a supply that pieces have had since a month,
// up to the month before.
func (k *month) drawnSince(supply string, since calendar.Month) *big.Rat {
	sum := new(big.Rat)
	for _, m := range k.l.Months {
		for i := range m.Postings {
			if p := &m.Postings[i]; m.Month >= since && m.Month < k.m && p.Supply == supply &&
				p.How.Method == ledger.UsedSupply {
				sum.Add(sum, money.OrZero(p.How.Quantity))
			}
		}
	}
	return sum
}

// usesBeforeCounts notes a count of a month's first five days that closes the
// month before, with uses of its supply in those days before it: what they took
// is missing from the count, and they take it again in their own month.
func (k *month) usesBeforeCounts() {
	for c := range ledger.Each(k.b.Counts) {
		if c.Closes() != k.m || c.On.InMonth() == k.m {
			continue
		}
		s := k.supply[c.Supply]
		if s == nil || !byUses(s) {
			continue
		}
		took, rows := k.usedBetween(s, c.On.InMonth().First(), c.On)
		moves := k.worth(k.m, took, s.Name)
		if moves < noteFrom {
			continue
		}
		slices.SortFunc(rows, fault.Place.Compare)
		at := c.At.At("counted_on")
		k.found[cause{fault.CodeUsesBeforeCount, at}] = fault.Problem{Code: fault.CodeUsesBeforeCount, Note: true,
			Place: at, Found: c.On.Written(k.b.Settings.DayFirst), MoneyCents: int64(moves.Abs()), Month: k.m,
			Fix: fmt.Sprintf("Add %s to Left, so that it says what was left at the end of %s.", k.containers(took, s),
				k.m.Name())}.Naming("This count closes %s, and uses of %s in the days before it (%s) took %s, which falls "+
			"on the next can as well.", k.m.Name(), s.Name, rows, k.containers(took, s))
	}
}

// usedBetween is what the uses of a supply from one day to before another take,
// as measured or by the coverage in force, and their rows.
func (k *month) usedBetween(s *ledger.Supply, from, before calendar.Date) (*big.Rat, []fault.Place) {
	per, _ := k.Closing.Shelf[s.Name].Coverage(k.b.Settings.Coverage, s)
	took := new(big.Rat)
	var rows []fault.Place
	for u := range ledger.Each(k.b.Uses) {
		if u.Supply != s.Name || u.On.Before(from) || !u.On.Before(before) {
			continue
		}
		switch area := k.areaOf(u); {
		case u.Amount != nil:
			took.Add(took, u.Amount)
		case per != nil && area != nil:
			took.Add(took, new(big.Rat).Quo(new(big.Rat).Mul(area, u.Coats), per))
		}
		rows = append(rows, u.At)
	}
	return took, rows
}

// areaOf is a use's area, or nil where a piece's is not known.
func (k *look) areaOf(u *ledger.Use) *big.Rat {
	if u.Area != nil {
		return u.Area
	}
	sum := new(big.Rat)
	for i := range k.b.Pieces {
		if p := &k.b.Pieces[i]; slices.Contains(u.Pieces, p.ID) {
			if p.Area == nil {
				return nil
			}
			sum.Add(sum, p.Area)
		}
	}
	return sum
}

// heldMonths is how long a supply must have been there, and how far back its
// use is looked at.
const heldMonths = 6

// heldFrom is the least that such a shelf must be worth above what was used: a
// few sheets of sandpaper are not worth the walk.
const heldFrom money.Cents = 500

// heldLong notes a supply held for six months, and not counted in them, whose
// shelf is worth more than was used of it in them. It belongs to every sixth
// month since it was last counted, or first there. One bought and never touched
// has a note of its own.
func (k *month) heldLong() {
	used := k.usedSince(k.m - heldMonths)
	for name, shelf := range k.Closing.Shelf {
		s := k.supply[name]
		then := k.l.At(k.m - heldMonths).Shelf[name]
		since := max(shelf.Counted, shelf.Opened-1)
		if s == nil || k.m-since < heldMonths || len(then.Layers) == 0 || then.Left().Sign() <= 0 || used[name] == 0 {
			continue
		}
		worth := shelf.Cents()
		if worth-used[name] < heldFrom {
			continue
		}
		k.note(since+(k.m-since)/heldMonths*heldMonths, fault.CodeShelfHeldLong, s.At.At("supply"), name,
			fmt.Sprintf("By the records %s of %s is left, worth %s, and in the six months to %s %s of it was used; it has not "+
				"been counted in them.",
				k.containers(shelf.Left(), s), name, k.amount(worth), k.m.Name(), k.amount(used[name])),
			"Count it and type what is left in Counts, or enter the uses that are missing.", worth-used[name])
	}
}

// usedSince is what each supply put into pieces in the months after one, up to this.
func (k *month) usedSince(after calendar.Month) map[string]money.Cents {
	out := map[string]money.Cents{}
	put := figures.Find(figures.OfPiece, figures.LineSupplies)
	for _, m := range k.l.Months {
		if m.Month <= after || m.Month > k.m {
			continue
		}
		for p := range ledger.Each(m.Postings) {
			out[p.Supply] += money.Cents(put.Sign(p)) * p.Cents
		}
	}
	return out
}
