package closing

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// NotStaying knows, of what pieces left and came back at, the part that is
// supplies that do not stay on them: a tax year may leave those out of stock.
type NotStaying map[string][]part

type part struct {
	at    int
	cents money.Cents
}

// Place is where a posting stands among the months: corrections to closed
// months come after the month before the one that carries them, and before that.
func Place(p *ledger.Posting) int {
	if IsCorrection(p) {
		return int(p.Month)*2 - 1
	}
	return int(p.Month) * 2
}

// EndOf is the place of the last posting of a month.
func EndOf(m calendar.Month) int { return int(m) * 2 }

// StartOf is the place of the last posting before a month's own.
func StartOf(m calendar.Month) int { return int(m)*2 - 1 }

// NewNotStaying goes through postings, by month.
func NewNotStaying(b *ledger.Books, postings []ledger.Posting) NotStaying {
	stays, out := b.Stays(), NotStaying{}
	for p := range ledger.Each(postings) {
		if p.To == ledger.Pieces && p.Supply != "" && !stays[p.Supply] {
			out[p.Piece] = append(out[p.Piece], part{Place(p), p.Cents})
		}
	}
	return out
}

// UpTo is what such supplies put into a piece up to a place.
func (n NotStaying) UpTo(piece string, place int) money.Cents {
	var sum money.Cents
	for _, x := range n[piece] {
		if x.at <= place {
			sum += x.cents
		}
	}
	return sum
}

// Of is that part of a posting; of a correction it stands in it.
func (n NotStaying) Of(p *ledger.Posting) money.Cents {
	if IsCorrection(p) {
		return p.How.Amount(ledger.AmountNotStaying)
	}
	switch p.Reason {
	case ledger.ReasonSold, ledger.ReasonRemoved:
		return n.UpTo(p.Piece, EndOf(p.Month))
	case ledger.ReasonReturned:
		return n.UpTo(p.Piece, StartOf(p.Month))
	case ledger.ReasonLate:
		return n.UpTo(p.Piece, EndOf(p.Month)) - n.UpTo(p.Piece, StartOf(p.Month))
	}
	return 0
}
