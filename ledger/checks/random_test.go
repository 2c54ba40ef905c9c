package checks_test

import (
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// draw makes records out of few names, few days and small amounts, so that
// they collide as much as they can. A name may be unknown and a date missing:
// Look must stand what intake would have refused.
type draw struct {
	*rapid.T
	row int
}

func (d *draw) at() fault.Place { d.row++; return at("any", d.row) }

func (d *draw) on() calendar.Date {
	n := rapid.IntRange(-1, 200).Draw(d.T, "day")
	if n < 0 {
		return calendar.Date{}
	}
	return day("2026-01-01").AddDays(n)
}

func (d *draw) cents() money.Cents { return money.Cents(rapid.IntRange(0, 5000).Draw(d.T, "cents")) }

func (d *draw) maybe() *money.Cents {
	if rapid.Bool().Draw(d.T, "blank") {
		return nil
	}
	return cents(d.cents())
}

func (d *draw) number() *big.Rat {
	return big.NewRat(rapid.Int64Range(0, 30).Draw(d.T, "over"), rapid.Int64Range(1, 7).Draw(d.T, "under"))
}

func (d *draw) pick(from ...string) string { return rapid.SampledFrom(from).Draw(d.T, "pick") }
func (d *draw) piece() string              { return d.pick("P1", "P2", "P3", "P4", "P5", "P9") }
func (d *draw) supply() string             { return d.pick("Primer", "Rags", "Wax", "Nothing") }

func (d *draw) pieces() []string {
	var out []string
	for range rapid.IntRange(0, 3).Draw(d.T, "pieces") {
		out = append(out, d.piece())
	}
	return out
}

// several is 0 to 5 of a record.
func several[R any](d *draw, one func() R) []R {
	var out []R
	for range rapid.IntRange(0, 5).Draw(d.T, "records") {
		out = append(out, one())
	}
	return out
}

// books are random Books.
func (d *draw) books() ledger.Books {
	b := ledger.Books{Settings: settings()}
	for _, id := range []string{"P1", "P2", "P3", "P4", "P5"} {
		p := ledger.Piece{At: d.at(), ID: id, Kind: d.pick("chest", "bed"), GotOn: d.on(), Price: d.cents(), Worth: d.maybe(),
			Asking: d.maybe(),
			How:    ledger.How(d.pick("", "bought", "client")), Lot: d.pick("", "", "L1", "L2"), StartedOn: d.on(),
			FinishedOn: d.on(), ListedOn: d.on()}
		if rapid.Bool().Draw(d.T, "area") {
			p.Area = d.number()
		}
		b.Pieces = append(b.Pieces, p)
	}
	b.Lots = []ledger.Lot{{At: d.at(), ID: "L1", GotOn: d.on(), Price: d.cents(), ShareBy: d.pick("", "equal", "worth")}}
	for _, name := range []string{"Primer", "Rags", "Wax"} {
		s := supply(1, name, d.pick("primer", "wax"))
		s.ShareBy = ledger.ShareBy(d.pick("area", "bench", "hours", "pieces"))
		b.Supplies = append(b.Supplies, s)
	}
	b.Purchases = several(d, func() ledger.Purchase {
		return ledger.Purchase{At: d.at(), On: d.on(), Supply: d.supply(), Amount: new(big.Rat).Sub(d.number(), rat("2")),
			Cost: d.cents()}
	})
	b.Openings = several(d, func() ledger.Opening {
		return ledger.Opening{At: d.at(), On: d.on(), Supply: d.supply(), Amount: d.number(), Cost: d.cents()}
	})
	b.Uses = several(d, func() ledger.Use {
		return ledger.Use{At: d.at(), On: d.on(), Pieces: d.pieces(), Supply: d.supply(), Coats: d.number()}
	})
	b.Counts = several(d, func() ledger.Count {
		return ledger.Count{At: d.at(), On: d.on(), Supply: d.supply(), Left: d.number()}
	})
	d.work(&b)
	d.money(&b)
	return b
}

func (d *draw) work(b *ledger.Books) {
	b.Parts = several(d, func() ledger.Part {
		return ledger.Part{At: d.at(), On: d.on(), Pieces: d.pieces(), Cost: d.cents() - 1000}
	})
	b.Hours = several(d, func() ledger.Hours {
		return ledger.Hours{At: d.at(), On: d.on(), Pieces: d.pieces(), Hours: d.number()}
	})
	b.Trips = several(d, func() ledger.Trip {
		return ledger.Trip{At: d.at(), On: d.on(), Pieces: d.pieces(), Miles: d.number()}
	})
	b.Moves = several(d, func() ledger.Move {
		return ledger.Move{At: d.at(), On: d.on(), From: d.piece(), To: d.piece(), Value: d.cents()}
	})
	b.Removals = several(d, func() ledger.Removal {
		return ledger.Removal{At: d.at(), On: d.on(), Piece: d.piece(), Why: d.pick("kept", "scrapped", "given back",
			"returned to seller")}
	})
}

func (d *draw) money(b *ledger.Books) {
	types := []string{"sale", "sale", "return", "refund", "part payment"}
	for range 2 {
		b.Sales = append(b.Sales, several(d, func() ledger.Sale {
			return ledger.Sale{At: d.at(), On: d.on(), Pieces: d.pieces(), Channel: d.pick("", "market", "booth"),
				Type: ledger.SaleType(d.pick(types...)), Price: d.cents(), DeliveryCharged: d.cents(), Fee: d.maybe()}
		})...)
	}
	b.Channels = several(d, func() ledger.Channel {
		return ledger.Channel{At: d.at(), Name: d.pick("market", "Market "), FromDate: d.on(), FeePercent: d.number()}
	})
	b.Expenses = several(d, func() ledger.Expense {
		return ledger.Expense{At: d.at(), On: d.on(), What: d.pick("gas", "rent"), Group: "booth rent", Amount: d.cents(),
			Pieces: d.pieces()}
	})
	b.Payouts = several(d, func() ledger.Payout {
		return ledger.Payout{At: d.at(), On: d.on(), Channel: "market", Amount: d.cents(), Rent: d.cents()}
	})
}

// TestRandom looks at any Books at any month without a panic, whatever order
// its records are in, and without changing them: the same problems are reported.
func TestRandom(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := &draw{T: rt}
		b := d.books()
		through := calendar.Month(0)
		if m := rapid.IntRange(0, 7).Draw(rt, "through"); m > 0 {
			through = day("2026-01-01").InMonth() + calendar.Month(m-1)
		}
		want := checks.Look(&b, through).All()
		if last := checks.LastMonth(&b); last != 0 && last < day("2026-01-01").InMonth() {
			rt.Fatalf("last month %s is before the first record", last)
		}
		seed := rapid.Uint64().Draw(rt, "seed")
		shuffle(&b, rand.New(rand.NewPCG(seed, 1)))
		if got := checks.Look(&b, through).All(); !slices.Equal(got, want) {
			rt.Fatalf("another order of records tells\n%v\nnot\n%v", got, want)
		}
	})
}

// shuffle puts each table's records in another order.
func shuffle(b *ledger.Books, r *rand.Rand) {
	mix(r, b.Pieces)
	mix(r, b.Supplies)
	mix(r, b.Purchases)
	mix(r, b.Openings)
	mix(r, b.Uses)
	mix(r, b.Counts)
	mix(r, b.Parts)
	mix(r, b.Hours)
	mix(r, b.Trips)
	mix(r, b.Moves)
	mix(r, b.Removals)
	mix(r, b.Sales)
	mix(r, b.Channels)
	mix(r, b.Expenses)
	mix(r, b.Payouts)
}

func mix[R any](r *rand.Rand, rows []R) {
	r.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
}
