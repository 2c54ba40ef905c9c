package checks

import (
	"encoding/json"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// row is any record, as far as the checks that look at all tables need it.
type row struct {
	table  string
	at     fault.Place
	column string // of the date; blank where the date is another cell's
	on     calendar.Date
	month  calendar.Month // the month it belongs to: for a count, the one it closes
	cents  money.Cents    // what the line could move; see value.go
	key    string         // the record's content without its place
}

// gather appends the rows of one table. The function gives each record's
// place, date (zero: undated) and money.
func gather[R any](out []row, table, column string, records []R,
	of func(*R) (*fault.Place, calendar.Date, money.Cents)) []row {
	for _, record := range records {
		at, on, cents := of(&record)
		r := row{table: table, at: *at, column: column, on: on, cents: cents}
		if !on.IsZero() {
			r.month = on.InMonth()
		}
		*at = fault.Place{}
		// A record is only texts, numbers and dates that write themselves in
		// one way, so equal JSON is equal content.
		key, err := json.Marshal(record)
		if err != nil {
			panic("checks: a record that cannot be written: " + err.Error())
		}
		r.key = string(key)
		out = append(out, r)
	}
	return out
}

// ownRowTable is the table that sales and hours on a piece's own row count as.
const ownRowTable = "Pieces, sold on their own row"

// rows is every record of every table but Supplies, Schedules and Channels,
// which are not events. What stands on a piece's own row counts as a table of its own; a
// lot's piece has its lot's date, which must not count twice, so it has none.
func (l *look) rows(b *ledger.Books) []row {
	out := gather(nil, "Pieces", "got_on", b.Pieces, func(r *ledger.Piece) (*fault.Place, calendar.Date, money.Cents) {
		if r.Lot != "" {
			return &r.At, calendar.Date{}, 0
		}
		return &r.At, r.GotOn, r.Price + r.TaxPaid + r.Pickup
	})
	onPieces := map[fault.Place]bool{}
	for _, r := range out {
		onPieces[r.at.At("")] = true
	}
	out = gather(out, "Sales", "sold_on", b.Sales, func(r *ledger.Sale) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Price + r.DeliveryCharged
	})
	out = gather(out, "Hours", "worked_on", b.Hours, func(r *ledger.Hours) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, l.hoursCents(r)
	})
	for i := range out {
		if out[i].table != "Pieces" && onPieces[out[i].at.At("")] {
			if out[i].table == "Hours" {
				out[i].column = "" // dated by finished_on, sold_on or got_on
			}
			out[i].table = ownRowTable
		}
	}
	return l.benchRows(l.moneyRows(out, b), b)
}

// benchRows appends the tables of the shelf and the bench.
func (l *look) benchRows(out []row, b *ledger.Books) []row {
	out = gather(out, "Lots", "got_on", b.Lots, func(r *ledger.Lot) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.GotOn, r.Total()
	})
	out = gather(out, "Surfaces", "", b.Surfaces, func(r *ledger.Surface) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, calendar.Date{}, 0
	})
	out = gather(out, "Purchases", "bought_on", b.Purchases, func(r *ledger.Purchase) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Total()
	})
	out = gather(out, "Openings", "on", b.Openings, func(r *ledger.Opening) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Cost
	})
	out = gather(out, "Uses", "used_on", b.Uses, func(r *ledger.Use) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, l.useCents(r)
	})
	out = gather(out, "Parts", "bought_on", b.Parts, func(r *ledger.Part) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Cost + r.TaxPaid
	})
	n := len(out)
	out = gather(out, "Counts", "counted_on", b.Counts, func(r *ledger.Count) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, l.countCents(r)
	})
	for i := range b.Counts {
		if !b.Counts[i].On.IsZero() {
			out[n+i].month = b.Counts[i].Closes()
		}
	}
	return gather(out, "Moves", "moved_on", b.Moves, func(r *ledger.Move) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Value
	})
}

// moneyRows appends the tables of the shop's other money.
func (l *look) moneyRows(out []row, b *ledger.Books) []row {
	out = gather(out, "Trips", "on", b.Trips, func(r *ledger.Trip) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, l.tripCents(r)
	})
	out = gather(out, "Expenses", "paid_on", b.Expenses, func(r *ledger.Expense) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Amount
	})
	out = gather(out, "Equipment", "bought_on", b.Equipment, func(r *ledger.Equipment) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Cost + r.TaxPaid
	})
	out = gather(out, "Removals", "removed_on", b.Removals, func(r *ledger.Removal) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Received
	})
	out = gather(out, "Other income", "got_on", b.OtherIncome, func(r *ledger.OtherIncome) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Amount
	})
	out = gather(out, "Tax paid", "paid_on", b.TaxPaid, func(r *ledger.TaxPaid) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, r.Amount + r.Kept
	})
	// A payout is never income or expense, so it moves nothing.
	out = gather(out, "Payouts", "paid_on", b.Payouts, func(r *ledger.Payout) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, r.On, 0
	})
	return gather(out, "Statements", "", b.Statements, func(r *ledger.Statement) (*fault.Place, calendar.Date, money.Cents) {
		return &r.At, calendar.Date{}, 0
	})
}
