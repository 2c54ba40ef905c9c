package taxyear

import (
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// The amounts of the books that a form's lines may take. The list is closed,
// but for 'expense: ' with each group of Expenses.
const (
	slotReceipts   = "gross receipts"
	slotRefunds    = "refunds"
	slotOther      = "other income"
	slotOpening    = "opening stock"
	slotAcquired   = "acquired"
	slotOwner      = "kept or donated"
	slotSupplies   = "supplies bought"
	slotParts      = "parts"
	slotOutside    = "outside work"
	slotClosing    = "closing stock"
	slotFees       = "fees"
	slotDelivery   = "delivery cost"
	slotTrips      = "trips"
	slotAtOnce     = "equipment at once"
	slotAbove      = "equipment above the limit"
	slotWrittenOff = "depreciation"
	slotWhenUsed   = "supplies when used"
	slotExpense    = "expense: "
)

// slotOf is where each reason's posting of the year goes as it stands. What
// moves cost between accounts is judged apart.
var slotOf = map[ledger.Reason]string{
	ledger.ReasonSale: slotReceipts, ledger.ReasonPartPayment: slotReceipts, ledger.ReasonRefund: slotRefunds, ledger.ReasonReturn: slotRefunds,
	ledger.ReasonOtherIncome: slotOther, ledger.ReasonReceived: slotOther, ledger.ReasonAllowance: slotOther,
	ledger.ReasonAcquired: slotAcquired, ledger.ReasonPart: slotParts, ledger.ReasonMove: slotParts, ledger.ReasonOutsideWork: slotOutside,
	ledger.ReasonFee: slotFees, ledger.ReasonCardFee: slotFees, ledger.ReasonDelivery: slotDelivery, ledger.ReasonTrip: slotTrips,
}

// slots parts the postings of the year, and of the balances at its two ends,
// into the amounts that lines take. Each posting's cents are what it adds.
func (s *source) slots() map[string][]ledger.Posting {
	out := map[string][]ledger.Posting{}
	add := func(slot string, p ledger.Posting, cents money.Cents) {
		if cents == 0 {
			return
		}
		p.Cents = cents
		out[slot] = append(out[slot], p)
	}
	for _, p := range s.life {
		for _, slot := range s.balances(p) {
			add(slot, p, s.onPieces(p))
			shelf := p
			shelf.Piece = "" // what leaves the shelf is told by its supply
			add(slot, shelf, s.onShelf(p))
		}
		if p.Month < s.from {
			continue
		}
		if slot := slotOf[p.Reason]; slot != "" {
			add(slot, p, p.Cents)
			continue
		}
		switch {
		case p.Reason == ledger.ReasonExpense:
			add(slotExpense+p.Group, p, p.Cents)
		case p.Reason == ledger.ReasonEquipment && s.aboveLimit(p.Date, p.Cents):
			add(slotAbove, p, p.Cents)
		case p.Reason == ledger.ReasonEquipment:
			add(slotAtOnce, p, p.Cents)
		case p.To == ledger.Shelf && s.counts(p.Supply):
			add(slotSupplies, p, p.Cents)
		case p.From == ledger.Shelf && !s.counts(p.Supply):
			add(slotWhenUsed, p, p.Cents)
		case p.To == ledger.Owner:
			add(slotOwner, p, s.kept(p))
		case p.From == ledger.Owner:
			add(slotOwner, p, -s.kept(p))
		}
	}
	for _, slot := range []string{slotOpening, slotClosing} {
		out[slot] = withoutGone(out[slot])
	}
	for _, p := range s.writeOffs() {
		add(slotWrittenOff, p, p.Cents)
	}
	return out
}

// balances are those that a posting is part of.
func (s *source) balances(p ledger.Posting) []string {
	if p.Month < s.from {
		return []string{slotOpening, slotClosing}
	}
	return []string{slotClosing}
}

// onPieces is what a posting adds to the pieces in stock.
func (s *source) onPieces(p ledger.Posting) money.Cents {
	switch ledger.Pieces {
	case p.To:
		return s.kept(p)
	case p.From:
		return -s.kept(p)
	}
	return 0
}

// onShelf is what a posting adds to the shelf.
func (s *source) onShelf(p ledger.Posting) money.Cents {
	switch {
	case !s.counts(p.Supply):
		return 0
	case p.To == ledger.Shelf:
		return p.Cents
	case p.From == ledger.Shelf:
		return -p.Cents
	}
	return 0
}

// withoutGone drops what nets to nothing: pieces that had left by then, and
// supplies used up.
func withoutGone(postings []ledger.Posting) []ledger.Posting {
	key := func(p ledger.Posting) [2]string {
		if p.Piece != "" {
			return [2]string{"piece", p.Piece}
		}
		return [2]string{"supply", p.Supply}
	}
	left := map[[2]string]money.Cents{}
	for _, p := range postings {
		left[key(p)] += p.Cents
	}
	return slices.DeleteFunc(postings, func(p ledger.Posting) bool { return left[key(p)] == 0 })
}

// counts says that a supply is part of stock under the treatment chosen: all
// of them with the piece; when used, only those that stay on it.
func (s *source) counts(supply string) bool { return !s.whenUsed || s.stays[supply] }

// kept is a posting's cents without the supplies that the treatment leaves
// out of stock. What a piece leaves or comes back at is its whole cost up to
// a month, so what of it is left out is summed the same way.
func (s *source) kept(p ledger.Posting) money.Cents {
	if !s.whenUsed || p.Piece == "" {
		return p.Cents
	}
	switch p.Reason {
	case ledger.ReasonSupply, ledger.ReasonRecount:
		if !s.counts(p.Supply) {
			return 0
		}
	case ledger.ReasonSold, ledger.ReasonRemoved:
		return p.Cents - s.outUpTo(p.Piece, p.Month)
	case ledger.ReasonReturned:
		return p.Cents - s.outUpTo(p.Piece, p.Month-1)
	case ledger.ReasonLate:
		return p.Cents - s.outUpTo(p.Piece, p.Month) + s.outUpTo(p.Piece, p.Month-1)
	}
	return p.Cents
}

// total is Σ cents.
func total(postings []ledger.Posting) money.Cents {
	var sum money.Cents
	for _, p := range postings {
		sum += p.Cents
	}
	return sum
}

// net is what an account of the year gained, of costs without the supplies
// that the treatment leaves out.
func (s *source) net(a ledger.Account) money.Cents {
	var sum money.Cents
	for _, p := range s.life {
		switch {
		case p.Month < s.from:
		case a == ledger.ShelfLosses && !s.counts(p.Supply):
		case p.To == a:
			sum += s.kept(p)
		case p.From == a:
			sum -= s.kept(p)
		}
	}
	return sum
}

// Amounts are the names of all that a form's lines may take, with the groups
// of Expenses there are.
func Amounts(groups []string) []string {
	out := []string{slotReceipts, slotRefunds, slotOther, slotOpening, slotAcquired, slotOwner, slotSupplies, slotParts, slotOutside,
		slotClosing, slotFees, slotDelivery, slotTrips, slotAtOnce, slotAbove, slotWrittenOff, slotWhenUsed}
	for _, g := range groups {
		out = append(out, slotExpense+g)
	}
	return out
}

// lines lays the slots on the form's lines. A line that adds up others needs
// them worked out whatever their order in the form, so it is worked out by
// asking for them; a table that goes in a circle is a defect of ours.
func (s *source) lines(slots map[string][]ledger.Posting) ([]Line, error) {
	out := make([]Line, len(s.table.Lines))
	at := map[string]int{}
	for i, l := range s.table.Lines {
		at[l.Line] = i
	}
	state := make([]int, len(out)) // 1 under way, 2 done
	var work func(i int) error
	work = func(i int) error {
		if state[i] == 2 {
			return nil
		}
		if state[i] == 1 {
			return fmt.Errorf("line %s adds up itself", s.table.Lines[i].Line)
		}
		state[i] = 1
		line := Line{TaxLine: s.table.Lines[i]}
		for _, t := range line.Takes {
			line.take(t.Name, slots[t.Name], t.Less)
		}
		for _, t := range line.Adds {
			j, there := at[t.Name]
			if !there {
				continue // another year's line
			}
			if err := work(j); err != nil {
				return err
			}
			line.take("line "+t.Name, out[j].Postings, t.Less)
		}
		out[i], state[i] = line, 2
		return nil
	}
	for i := range out {
		if err := work(i); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// take adds postings to a line, or takes them away.
func (l *Line) take(name string, postings []ledger.Posting, less bool) {
	var sum money.Cents
	for _, p := range postings {
		if less {
			p.Cents = -p.Cents
		}
		sum += p.Cents
		l.Postings = append(l.Postings, p)
	}
	l.Cents += sum
	l.Terms = append(l.Terms, term(name, sum))
	l.Ends = append(l.Ends, len(l.Postings))
}
