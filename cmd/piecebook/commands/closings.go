package commands

import (
	"io/fs"

	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
)

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
		if err != nil || b.Month == 0 || b.Month > b.LastClosed() {
			return b, err
		}
		month = b.Month
	}
	upto := closing.Upto(closed, month)
	if len(upto) == 0 {
		return c.open(month) // before the first closed month
	}
	return c.openCopy(folder, upto[len(upto)-1], upto)
}

// openCopy is a closed month's copy of the records, with the closed months.
func (c *cli) openCopy(folder fs.FS, m *closing.Month, closed []*closing.Month) (*books, error) {
	r, err := c.reader()
	if err != nil {
		return nil, err
	}
	return c.books(r.Copied(folder, m, closed))
}
