package closing

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// notStaying knows, of what pieces left and came back at, the part that is
// supplies that do not stay on them: a tax year may leave those out of stock.
type notStaying map[string][]part

type part struct {
	month calendar.Month
	cents money.Cents
}

// newNotStaying goes through postings, by month.
func newNotStaying(b *ledger.Books, postings []ledger.Posting) notStaying {
	stays := map[string]bool{}
	for i := range b.Supplies {
		stays[b.Supplies[i].Name] = b.Supplies[i].Stays
	}
	out := notStaying{}
	for i := range postings {
		p := &postings[i]
		if p.To == ledger.Pieces && p.Supply != "" && !stays[p.Supply] {
			out[p.Piece] = append(out[p.Piece], part{p.Month, p.Cents})
		}
	}
	return out
}

// upTo is what such supplies put into a piece up to a month.
func (n notStaying) upTo(piece string, m calendar.Month) money.Cents {
	var sum money.Cents
	for _, x := range n[piece] {
		if x.month <= m {
			sum += x.cents
		}
	}
	return sum
}

// of is that part of a posting; of a correction it stands in it.
func (n notStaying) of(p *ledger.Posting) money.Cents {
	if IsCorrection(p) {
		return p.How.Amount(ledger.AmountNotStaying)
	}
	switch p.Reason {
	case ledger.ReasonSold, ledger.ReasonRemoved:
		return n.upTo(p.Piece, p.Month)
	case ledger.ReasonReturned:
		return n.upTo(p.Piece, p.Month-1)
	case ledger.ReasonLate:
		return n.upTo(p.Piece, p.Month) - n.upTo(p.Piece, p.Month-1)
	}
	return 0
}
