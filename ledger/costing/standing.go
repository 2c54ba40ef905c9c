package costing

import (
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// event is a sale, return or removal line as it touches one piece.
type event struct {
	on    calendar.Date
	where string // Sold, InStock for a return, or why removed
	at    fault.Place
}

// standings settles where every piece stands at the month's end. A piece
// leaves at its book cost at that month's end, comes back at its book cost up
// to the month before, and what falls in a month after it left follows it.
// What leaves and comes back within the month counts by where it ends.
func (r *run) standings() {
	events := r.events()
	touched := map[string]bool{}
	for id := range r.into {
		touched[id] = true
	}
	for id := range events {
		touched[id] = true
	}
	standing := map[string]Standing{}
	for _, id := range keys(touched) {
		if r.piece[id] == nil {
			continue
		}
		before := r.state.Pieces.Of(id)
		after, moved := walk(before, events[id])
		_, hasCost := r.into[id]
		if after.Where == NotHere && hasCost {
			after.Where = InStock
		}
		standing[id] = r.settle(id, before, after, moved)
	}
	r.state.Pieces = r.state.Pieces.With(standing)
}

// settle posts what the change of standing moves, and returns how the piece
// stands at the month's end.
func (r *run) settle(id string, before, after Standing, moved event) Standing {
	delta := r.into[id]
	after.Book = before.Book + delta
	if mv, moved := r.movedOut[id]; moved && after.Book < 0 {
		r.fail(fault.MovedAboveCost, mv.At.At("value"), mv.Value.String(),
			fmt.Sprintf("By the end of %s more was moved from %s than it had cost, supplies included: %s more.", r.m.Name(), id,
				after.Book.Abs().Grouped()),
			"Type a smaller value, or correct From piece.")
	}
	date := moved.on
	if date.IsZero() {
		date = r.m.Last()
	}
	source := []fault.Place{moved.at}
	if moved.at == (fault.Place{}) {
		source = []fault.Place{r.piece[id].At}
	}
	base := ledger.Posting{Date: date, Piece: id, Source: source}
	switch {
	case before.Gone() && before.Where == after.Where:
		base.Cents, base.From, base.To, base.Reason, base.Group = delta, ledger.Pieces, accountOf(after.Where),
			ledger.ReasonLate, after.Where
		base.How.Method = ledger.CostAfter
		r.post(base)
	default:
		if before.Gone() {
			back := base
			back.Cents, back.From, back.To, back.Reason, back.Group = before.Book, accountOf(before.Where), ledger.Pieces,
				ledger.ReasonReturned, before.Where
			back.How.Method = ledger.BookCostBefore
			r.postBack(back)
		}
		if after.Gone() {
			base.Cents, base.From, base.To, base.Reason, base.Group = after.Book, ledger.Pieces, accountOf(after.Where),
				whyLeft(after.Where), after.Where
			base.How.Method = ledger.BookCost
			r.post(base)
		}
	}
	return after
}

// postBack posts a return without counting it among the month's costs.
func (r *run) postBack(p ledger.Posting) {
	cost := r.into[p.Piece]
	r.post(p)
	r.into[p.Piece] = cost
}

// events gathers the month's sale, return and removal lines by piece, by date.
func (r *run) events() map[string][]event {
	out := map[string][]event{}
	for _, s := range r.index.sales[r.m] {
		where := map[ledger.SaleType]string{ledger.SaleLine: Sold, ledger.Return: InStock}[s.Type]
		if where == "" {
			continue
		}
		for _, id := range ledger.Distinct(s.Pieces) {
			out[id] = append(out[id], event{s.On, where, s.At})
		}
	}
	for _, x := range r.index.removals[r.m] {
		out[x.Piece] = append(out[x.Piece], event{x.On, x.Why, x.At})
	}
	for _, list := range out {
		slices.SortStableFunc(list, func(a, b event) int { return a.on.Compare(b.on) })
	}
	return out
}

// walk takes a piece through a month's events. On one day what fits where the
// piece stands comes first: a sale from stock, a return from a sale.
func walk(s Standing, events []event) (Standing, event) {
	var last event
	pending := slices.Clone(events)
	for len(pending) > 0 {
		next := 0
		for i, e := range pending {
			fits := (e.where == InStock) == s.Gone()
			if e.on == pending[0].on && fits {
				next = i
				break
			}
		}
		last = pending[next]
		pending = slices.Delete(pending, next, next+1)
		s.Where, s.SoldOn = last.where, calendar.Date{}
		if last.where == Sold {
			s.SoldOn = last.on
		}
	}
	return s, last
}

// accountOf is where the cost of a piece that has left stands.
func accountOf(where string) ledger.Account {
	switch where {
	case Sold:
		return ledger.CostOfSales
	case ledger.Kept, ledger.Donated:
		return ledger.Owner
	}
	return ledger.Lost
}

func whyLeft(where string) ledger.Reason {
	if where == Sold {
		return ledger.ReasonSold
	}
	return ledger.ReasonRemoved
}
