package commands

import (
	"io/fs"

	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/templates"
)

// closings is what closed months make of books.
type closings struct {
	all     []*closing.Month     // the closed months, in order
	records *costing.Ledger      // of the records as they stand
	carried *closing.Corrections // by the first open month; nil: none
	photos  fs.FS                // where photos are, where the records are a copy
	asOf    *closing.Month       // whose copy of the records this is; nil: the records as they stand
}

// lastClosed is the last closed month; 0: none.
func (b *books) lastClosed() calendar.Month {
	if n := len(b.all); n > 0 {
		return b.all[n-1].Month
	}
	return 0
}

// corrections are what the months from..to carry for closed months.
func (b *books) corrections(from, to calendar.Month) []*closing.Corrections {
	var out []*closing.Corrections
	for _, m := range b.all {
		if m.Corrections != nil && m.Month >= from && m.Month <= to {
			out = append(out, m.Corrections)
		}
	}
	if first := b.lastClosed() + 1; b.carried != nil && first >= from && first <= to {
		out = append(out, b.carried)
	}
	return out
}

// openClosed is open for reports: a closed month's come from what was closed,
// whatever the records have become.
func (c *cli) openClosed(month calendar.Month) (*books, error) {
	folder, closed, err := c.folderAndClosed()
	if err != nil {
		return nil, err
	}
	if n := len(closed); n == 0 || month > closed[n-1].Month {
		return c.open(month)
	}
	if month == 0 {
		b, err := c.open(0)
		if err != nil || b.month == 0 || b.month > b.lastClosed() {
			return b, err
		}
		month = b.month
	}
	upto := closing.Upto(closed, month)
	if len(upto) == 0 {
		return c.open(month) // before the first closed month
	}
	return c.openCopy(folder, upto[len(upto)-1], upto)
}

// openCopy is a closed month's copy of the records, with the closed months.
func (c *cli) openCopy(folder fs.FS, m *closing.Month, closed []*closing.Month) (*books, error) {
	set, err := templates.Load()
	if err != nil {
		return nil, err
	}
	records, err := closing.Copy(folder, m)
	if err != nil {
		return nil, err
	}
	b := c.readBooks(records, set, m.Month, closed)
	b.asOf, b.photos = m, folder
	return b, b.quietSeen(folder)
}
