package missing

import (
	"cmp"
	"fmt"
	"maps"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// What nearly every other piece had: looked at are the latest peersMost others
// of the same schedule, or else kind, and at least peersLeast; of withoutOf of
// them no more than withoutMost may be without. With one use in ten forgotten,
// what every piece truly has is written for nine in ten of them: two in twenty
// are without, and one more by chance. (testdata/forgotten.golden says how often
// that is right.)
const (
	peersLeast  = 5
	peersMost   = 20
	withoutMost = 3
	withoutOf   = 20
)

// done is a piece that was finished or sold, and the day that was.
type done struct {
	p  *ledger.Piece
	on calendar.Date
}

// Lack is a supply that a piece seems to have had without a use written down:
// With of the last Others others of its schedule, or else kind, had it.
type Lack struct {
	Piece        *ledger.Piece
	Supply       string
	With, Others int
	Schedule     bool        // the others are of its schedule
	AtStake      money.Cents // what it usually comes to on a piece of this area
}

// pieces notes pieces finished or sold in the months for which uses seem to be
// missing, and those at work whose schedule waits for a day. Of books without any
// use that is reported once, with what was bought.
func (k *look) pieces() {
	k.schedulesWaiting()
	if len(k.had) == 0 {
		k.noUses()
		return
	}
	bare, lacking, atStake := k.unwritten()
	for len(lacking) > 0 {
		n := 1
		for n < len(lacking) && lacking[n].Piece == lacking[0].Piece {
			n++
		}
		k.lackNote(lacking[:n])
		lacking = lacking[n:]
	}
	if len(bare) == 0 {
		return
	}
	var ids []string
	for _, p := range bare {
		ids = append(ids, p.ID)
	}
	was := fault.Plural(len(ids), "was finished or sold %s and has hours", "were finished or sold %s and have hours")
	k.note(k.end, fault.CodePieceNoSupplies, bare[0].At.At("piece"), ids[0],
		fmt.Sprintf("%s "+was+", but no use of any supply is written.", fault.Few(ids), k.period()),
		"Enter the uses in Uses, or type the finishing schedule in Schedule of Pieces; leave it if nothing was used.",
		atStake)
}

// period is the look's months within a sentence.
func (k *look) period() string {
	if k.from == k.end {
		return "in " + k.end.Name()
	}
	return "from " + k.from.Name() + " to " + k.end.Name()
}

// within says that a day lies in the look's months.
func (k *look) within(on calendar.Date) bool {
	return !on.IsZero() && k.from <= on.InMonth() && on.InMonth() <= k.end
}

// unwritten is the months' pieces without any supply, what such pieces usually
// are charged, and the supplies that other pieces lack, piece by piece.
func (k *look) unwritten() (bare []*ledger.Piece, lacking []Lack, atStake money.Cents) {
	all, charged := k.finished(), k.charged()
	peers := k.peers(all)
	for _, d := range all {
		id := d.p.ID
		switch {
		case !k.within(d.on) && !k.within(k.closing.Pieces.Of(id).SoldOn), !k.worked[id]:
		case k.had[id] == nil:
			bare = append(bare, d.p)
			others, _ := k.alike(peers, d.p)
			atStake += charged.usual(d.p, others, "")
		default:
			others, ofSchedule := k.alike(peers, d.p)
			lacking = append(lacking, k.lacking(d.p, others, ofSchedule, charged)...)
		}
	}
	return bare, lacking, atStake
}

// lackNote is the note on one piece's lacks.
func (k *look) lackNote(lacks []Lack) {
	var names []string
	var atStake money.Cents
	fewest := lacks[0]
	for _, x := range lacks {
		names = append(names, x.Supply)
		atStake += x.AtStake
		if x.With < fewest.With {
			fewest = x
		}
	}
	of := "kind"
	if fewest.Schedule {
		of = "schedule"
	}
	id := fewest.Piece.ID
	k.note(k.end, fault.CodePieceLacksSupply, fewest.Piece.At.At("piece"), id,
		fmt.Sprintf("No use of %s is written for %s, though %d of the last %d others of its %s had %s.", fault.Few(names), id,
			fewest.With, fewest.Others, of,
			fault.Plural(len(names), "it", "each")),
		fmt.Sprintf("Enter %s in Uses if %s used; otherwise leave it.", fault.Few(names),
			fault.Plural(len(names), "it was", "they were")), atStake)
}

// finished is every piece finished or sold up to the last month's end, by its day,
// then by piece. Pieces that went unsold are not among them.
func (k *look) finished() []done {
	var out []done
	for p := range ledger.Each(k.b.Pieces) {
		st := k.closing.Pieces.Of(p.ID)
		if st.Gone() && st.Where != costing.Sold {
			continue
		}
		on := p.FinishedOn
		if on.IsZero() || on.InMonth() > k.end {
			on = st.SoldOn
		}
		if !on.IsZero() {
			out = append(out, done{p, on})
		}
	}
	slices.SortFunc(out, func(a, b done) int { return cmp.Or(a.on.Compare(b.on), cmp.Compare(a.p.ID, b.p.ID)) })
	return out
}

// schedule is the finishing schedule of a piece: its own, or the one that its
// uses name; blank where there is none, or several.
func (k *look) schedule(p *ledger.Piece) string {
	if p.Schedule == "" && len(k.named[p.ID]) == 1 {
		return slices.Sorted(maps.Keys(k.named[p.ID]))[0]
	}
	return p.Schedule
}

// peers are the latest finished pieces with uses, latest first, one more than
// peersMost of each: a piece is not its own peer.
type peers struct {
	ofSchedule, ofKind map[string][]*ledger.Piece
}

func (k *look) peers(all []done) peers {
	out := peers{map[string][]*ledger.Piece{}, map[string][]*ledger.Piece{}}
	add := func(to map[string][]*ledger.Piece, name string, p *ledger.Piece) {
		if len(to[name]) <= peersMost {
			to[name] = append(to[name], p)
		}
	}
	for _, d := range slices.Backward(all) {
		if k.had[d.p.ID] == nil {
			continue
		}
		if schedule := k.schedule(d.p); schedule != "" {
			add(out.ofSchedule, schedule, d.p)
		}
		add(out.ofKind, templates.KindKey(d.p.Kind), d.p)
	}
	return out
}

// alike is the latest others with uses: of the piece's schedule where there are
// enough, which it says, else of its kind.
func (k *look) alike(all peers, p *ledger.Piece) (others []*ledger.Piece, bySchedule bool) {
	but := func(list []*ledger.Piece) []*ledger.Piece {
		list = slices.DeleteFunc(slices.Clone(list), func(o *ledger.Piece) bool { return o.ID == p.ID })
		return list[:min(len(list), peersMost)]
	}
	if of := but(all.ofSchedule[k.schedule(p)]); len(of) >= peersLeast {
		return of, true
	}
	return but(all.ofKind[templates.KindKey(p.Kind)]), false
}

// lacking is the supplies that nearly every other piece had and this one has
// not, by name; one of whose group it had another is not missed, nor one that
// would come to under 1.00.
func (k *look) lacking(p *ledger.Piece, others []*ledger.Piece, bySchedule bool, charged charged) []Lack {
	if len(others) < peersLeast {
		return nil
	}
	groups, with := map[string]bool{}, map[string]int{}
	for s := range k.had[p.ID] {
		if x := k.supply[s]; x != nil {
			groups[x.Group] = true
		}
	}
	for _, o := range others {
		for s := range k.had[o.ID] {
			with[s]++
		}
	}
	var out []Lack
	for name, n := range with {
		s := k.supply[name]
		if k.had[p.ID][name] || s == nil || groups[s.Group] || !byUses(s) ||
			(len(others)-n)*withoutOf > withoutMost*len(others) {
			continue
		}
		if x := (Lack{p, name, n, len(others), bySchedule, charged.usual(p, others, name)}); x.AtStake >= noteFrom {
			out = append(out, x)
		}
	}
	slices.SortFunc(out, func(a, b Lack) int { return cmp.Compare(a.Supply, b.Supply) })
	return out
}

// charged is what each piece has been charged for each supply so far.
type charged map[string]map[string]money.Cents

func (k *look) charged() charged {
	out := charged{}
	put := figures.Find(figures.OfPiece, figures.LineSupplies)
	for _, m := range k.l.Months {
		for p := range ledger.Each(m.Postings) {
			if sign := put.Sign(p); sign != 0 {
				if out[p.Piece] == nil {
					out[p.Piece] = map[string]money.Cents{}
				}
				out[p.Piece][p.Supply] += money.Cents(sign) * p.Cents
			}
		}
	}
	return out
}

// usual is what a supply (blank: all) usually comes to on a piece of this area:
// of the others that had it, its cost ÷ their area × this one's, or their mean
// cost where an area is not known. Rounded half to even, never below zero.
func (b charged) usual(p *ledger.Piece, others []*ledger.Piece, supply string) money.Cents {
	var cost money.Cents
	area, n := new(big.Rat), int64(0)
	known := p.Area != nil
	for _, o := range others {
		var c money.Cents
		if supply != "" {
			c = b[o.ID][supply]
		} else {
			for _, part := range b[o.ID] {
				c += part
			}
		}
		if c == 0 {
			continue
		}
		cost, n = cost+c, n+1
		if known = known && o.Area != nil; known {
			area.Add(area, o.Area)
		}
	}
	switch {
	case n == 0:
		return 0
	case known && area.Sign() > 0:
		return max(0, money.Round(new(big.Rat).Mul(cost.Rat(), new(big.Rat).Quo(p.Area, area))))
	}
	return max(0, money.Round(new(big.Rat).Quo(cost.Rat(), big.NewRat(n, 1))))
}

// schedulesWaiting notes pieces with hours and a schedule that nothing is used of
// yet, since no day says that they were finished, listed or sold.
func (k *look) schedulesWaiting() {
	after := func(on calendar.Date) bool { return on.IsZero() || on.InMonth() > k.end }
	var ids []string
	var first *ledger.Piece
	standing := k.closing.Pieces.All()
	for p := range ledger.Each(k.b.Pieces) {
		st, known := standing[p.ID]
		if p.Schedule == "" || !k.worked[p.ID] || k.had[p.ID] != nil || !known || st.Gone() ||
			!after(p.FinishedOn) || !after(p.ListedOn) {
			continue
		}
		if first == nil {
			first = p
		}
		ids = append(ids, p.ID)
	}
	if first == nil {
		return
	}
	k.note(k.end, fault.CodeScheduleWaits, first.At.At("finished_on"), ids[0],
		fmt.Sprintf("%s %s hours and a schedule, but no day of being finished, listed or sold up to the end of %s, "+
			"so no supplies "+
			"are charged to %s yet.", fault.Few(ids), fault.Plural(len(ids), "has", "have"), k.end.Name(),
			fault.Plural(len(ids), "it", "them")),
		"If the coats are on, type the day it was finished here; if not, leave it.", 0)
}

// noUses notes that supplies were bought, pieces were finished or sold, and none
// of them has used any: what was paid for the supplies stays on the shelf.
func (k *look) noUses() {
	var first *ledger.Purchase
	var paid money.Cents
	for p := range ledger.Each(k.b.Purchases) {
		if s := k.supply[p.Supply]; s == nil || !byUses(s) || p.On.InMonth() > k.end {
			continue
		}
		paid += p.Total()
		if first == nil || cmp.Or(p.On.Compare(first.On), p.At.Compare(first.At)) < 0 {
			first = p
		}
	}
	done := slices.DeleteFunc(k.finished(), func(d done) bool { return !k.within(d.on) })
	if first == nil || paid < noteFrom || len(done) == 0 {
		return
	}
	k.note(k.end, fault.CodeNoUses, first.At.At("supply"), first.Supply,
		fmt.Sprintf("Supplies for %s were bought up to the end of %s, but no piece has used any, so their cost "+
			"stays on the shelf "+
			"and in no piece.", k.amount(paid), k.end.Name()),
		"Type each piece's way of finishing under Schedule of Pieces, or enter what was put on it in Uses.", paid)
}
