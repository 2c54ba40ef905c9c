package checks_test

import (
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// noteCases raise the codes of what is only worth a look.
func noteCases() []testCase {
	chest := piece(2, "P1", "2026-03-02", 4000)
	second := piece(3, "P2", "2026-03-02", 2000)
	worked := []ledger.Hours{hours(2, "2026-03-03", "P1", "P2")}
	pair := func(build func(b *ledger.Books)) ledger.Books {
		return with(func(b *ledger.Books) {
			b.Pieces, b.Hours = []ledger.Piece{chest, second}, worked
			build(b)
		})
	}
	return slices.Concat(pieceNotes(pair), saleNotes(pair), shelfNotes(pair), monthNotes(pair))
}

// monthNotes are about what a month or a year lacks, or has in the wrong place.
func monthNotes(pair builder) []testCase {
	expense := func(row int, on, what, group, to string, amount money.Cents) ledger.Expense {
		return ledger.Expense{At: at("expenses", row), On: day(on), What: what, Group: group, To: to, Amount: amount}
	}
	return []testCase{
		{name: "balance-or-whole-price", books: pair(func(b *ledger.Books) {
			b.Pieces[0].Asking, b.Pieces[1].Asking = cents(20000), cents(10000)
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.PartPayment, 5000, "P1"), sale(3, "2026-03-20", ledger.SaleLine,
				20000, "P1"),
				sale(4, "2026-03-10", ledger.PartPayment, 3000, "P2"), sale(5, "2026-03-20", ledger.SaleLine, 7000, "P2")}
		})},
		{name: "balance-or-whole-price: of a set, a part given back, and sold before", books: pair(func(b *ledger.Books) {
			b.Pieces[0].Asking, b.Pieces[1].Asking = cents(20000), cents(10000)
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.PartPayment, 9000, "P1", "P2"),
				sale(3, "2026-03-11", ledger.Refund, 3000, "P1", "P2"),
				sale(4, "2026-03-20", ledger.SaleLine, 30000, "P1", "P2"), sale(5, "2026-03-25", ledger.Return, 36000, "P1", "P2"),
				sale(6, "2026-03-28", ledger.SaleLine, 30000, "P1", "P2")}
		})},
		{name: "price-twice: in Expenses, with the tax in Parts", books: pair(func(b *ledger.Books) {
			b.Pieces[0].ID, b.Pieces[1].ID, b.Pieces[1].TaxPaid = "Oak dresser", "Pine desk", 120
			b.Hours = nil
			b.Expenses = []ledger.Expense{expense(2, "2026-03-02", "bought oak dresser", "other", "", 4000),
				expense(3, "2026-03-02", "dresser", "other", "", 4000), expense(4, "2026-03-03", "Oak dresser", "other", "", 4000)}
			b.Parts = []ledger.Part{{At: at("parts", 2), On: day("2026-03-02"), Pieces: []string{"Pine desk"},
				What: "the Pine desk", Cost: 2120}}
		})},
		{name: "expense-missing", through: "2026-06", books: pair(func(b *ledger.Books) {
			b.Hours = append(b.Hours, hours(9, "2026-06-20"))
			for i, m := range []string{"2026-03", "2026-04", "2026-05"} {
				b.Expenses = append(b.Expenses, expense(3*i+2, m+"-01", "Insurance, "+day(m+"-01").Month.String(),
					"insurance", "", 4200),
					expense(3*i+3, m+"-05", "rent", "storage", "Hill Storage", 6000+money.Cents(100*i)),
					expense(3*i+4, m+"-28", "phone", "office", "", 2500)) // not due yet by the 20th
			}
			b.Expenses = append(b.Expenses, expense(20, "2026-06-01", "storage, June", "storage", "Hill Storage", 6300))
		})},
		{name: "amount-doubtful", through: "2026-03", books: pair(func(b *ledger.Books) {
			b.Supplies = []ledger.Supply{supply(2, "Primer", "primer")}
			for i, cost := range []money.Cents{2000, 2200, 23000, 2100} {
				p := purchase(i+2, "2026-03-0"+string(rune('2'+i)), "Primer", cost)
				p.TaxPaid = cost * 8 / 100
				b.Purchases = append(b.Purchases, p)
			}
			b.Purchases[0].TaxPaid = 1600
			b.Pieces[1].Asking = cents(20000)
			b.Pieces[1].Price = 40000
			fee := sale(2, "2026-03-20", ledger.SaleLine, 9000, "P1")
			fee.Fee = cents(9500)
			b.Sales = []ledger.Sale{fee}
			for i, miles := range []string{"10", "12", "11", "1150", "9", "10"} {
				b.Trips = append(b.Trips, ledger.Trip{At: at("trips", i+2), On: day("2026-03-11"), Miles: rat(miles), To: "store",
					Purpose: "supplies"})
			}
		})},
		{name: "foreign-mileage", books: pair(func(b *ledger.Books) {
			b.Settings.Currency, b.Settings.Units = "EUR", "metric"
			b.Settings.Mileage = []ledger.MileageRate{{From: day("2026-01-01"), PerMile: rat("0.45"), Foreign: "USD"},
				{From: day("2026-03-10"), PerMile: rat("0.30"), Own: true}}
			for i, on := range []string{"2026-03-02", "2026-03-09", "2026-03-10"} {
				b.Trips = append(b.Trips, ledger.Trip{At: at("trips", i+2), On: day(on), Miles: rat("10"), Tolls: 200})
			}
		})},
		{name: "year-earlier", through: "2026-04", books: pair(func(b *ledger.Books) {
			for i, on := range []string{"2026-03-02", "2026-03-09", "2025-03-10", "2026-03-20", "2026-03-25", "2026-04-02",
				"2025-04-03"} {
				p := part(i+2, on, 1000, "P1")
				p.What = on
				b.Parts = append(b.Parts, p)
			}
			b.Pieces[0].GotOn, b.Pieces[1].GotOn = day("2024-12-02"), day("2026-03-03")
			b.Trips = []ledger.Trip{{At: at("trips", 2), On: day("2025-06-01"), Miles: rat("12")}}
			b.Hours = append(b.Hours, hours(9, "2026-04-20"))
		})},
	}
}

// pieceNotes are about a piece's dates.
func pieceNotes(pair builder) []testCase {
	return []testCase{
		{name: "after-it-left", books: pair(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 9000, "P1")}
			b.Removals = []ledger.Removal{removal(2, "2026-03-20", "P2", ledger.Kept)}
			b.Supplies = []ledger.Supply{supply(2, "Primer", "primer"), supply(3, "Paint", "paint")}
			b.Purchases = []ledger.Purchase{purchase(2, "2026-03-03", "Primer", 2000), purchase(3, "2026-03-03", "Paint", 3000)}
			fromSchedule := []ledger.Use{use(2, "2026-04-03", "Primer", "P1"), use(2, "2026-04-03", "Paint", "P1")}
			fromSchedule[0].Schedule, fromSchedule[1].Schedule = "Paint", "Paint"
			b.Uses = append(fromSchedule, use(3, "2026-03-31", "Primer", "P1"))
			b.Parts = []ledger.Part{part(2, "2026-04-05", 1000, "P1", "P2"), part(3, "2026-04-05", 700, "P1")}
			b.Parts[1].Outside = true
			b.Moves = []ledger.Move{move(2, "2026-04-06", "P1", "P2", 200)}
			b.Expenses = []ledger.Expense{{At: at("expenses", 2), On: day("2026-04-07"), What: "dump", Group: "other",
				Amount: 1500, Pieces: []string{"P1"}}}
			b.Trips = []ledger.Trip{{At: at("trips", 2), On: day("2026-04-08"), Miles: rat("10"), Tolls: 100,
				Pieces: []string{"P1"}}}
			b.Hours = append(b.Hours, hours(3, "2026-04-09", "P2"))
		})},
		{name: "after-it-left: came back and left again within the month", books: pair(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 9000, "P1"), sale(3, "2026-04-10", ledger.Return,
				9000, "P1"),
				sale(4, "2026-04-20", ledger.SaleLine, 8000, "P1"), sale(5, "2026-05-10", ledger.Return, 8000, "P1")}
			b.Parts = []ledger.Part{part(2, "2026-04-15", 1000, "P1"), part(3, "2026-05-02", 1000, "P1")}
		})},
		{name: "long-before-it-came", books: pair(func(b *ledger.Books) {
			b.Parts = []ledger.Part{part(2, "2025-12-31", 1000, "P1", "P2"), part(3, "2026-01-01", 1000, "P1")}
			b.Sales = []ledger.Sale{sale(2, "2025-12-01", ledger.PartPayment, 9000, "P1")}
			b.Trips = []ledger.Trip{{At: at("trips", 2), On: day("2025-12-01"), Miles: rat("10"), Pieces: []string{"P1"}}}
			b.Hours = append(b.Hours, hours(3, "2025-12-01", "P1"))
		})},
		{name: "date-ahead", through: "2026-03", books: pair(func(b *ledger.Books) {
			b.Pieces[0].FinishedOn = day("2062-03-05")
			b.Parts = []ledger.Part{part(2, "2061-03-05", 1000, "P1")}
			b.Counts = []ledger.Count{count(2, "2026-04-05", "Rags", "0")}
			b.Supplies = []ledger.Supply{supply(2, "Rags", "other")}
			own := sale(3, "2062-03-20", ledger.SaleLine, 5000, "P2")
			own.At, own.OwnRow, b.Hours[0].Pieces = b.Pieces[1].At, true, []string{"P1"}
			b.Hours = append(b.Hours, ledger.Hours{At: own.At, On: own.On, Pieces: []string{"P2"}, Hours: rat("3"),
				OwnRow: true})
			b.Sales = []ledger.Sale{own}
			b.Channels = nil
		})},
		{name: "dates-out-of-order", books: pair(func(b *ledger.Books) {
			b.Pieces[0].StartedOn, b.Pieces[0].FinishedOn, b.Pieces[0].ListedOn = day("2026-03-10"), day("2026-03-09"),
				day("2026-03-08")
			b.Pieces[1].StartedOn, b.Pieces[1].ListedOn = day("2026-03-01"), day("2026-03-02")
		})},
		{name: "lot-worth-missing", books: pair(func(b *ledger.Books) {
			b.Lots = []ledger.Lot{{At: at("lots", 2), ID: "L1", GotOn: day("2026-03-02"), Price: 9000, Fees: 1000}}
			b.Pieces[0].Lot, b.Pieces[1].Lot, b.Pieces[0].Worth = "L1", "L1", cents(3000)
		})},
	}
}

// saleNotes are about what pieces brought.
func saleNotes(pair builder) []testCase {
	return []testCase{
		{name: "price-far-from-kind", books: with(func(b *ledger.Books) {
			prices := []money.Cents{10000, 12000, 14000, 60000, 2000, 90}
			for i, price := range prices {
				id := fmt.Sprintf("P%d", i+1)
				p := piece(i+2, id, "2026-03-02", 1000)
				if i%2 == 1 {
					p.Kind = "Chest"
				}
				if price == 90 {
					p.How = ledger.Client
				}
				b.Pieces = append(b.Pieces, p)
				b.Hours = append(b.Hours, hours(i+2, "2026-03-03", id))
				b.Sales = append(b.Sales, sale(i+2, "2026-03-20", ledger.SaleLine, price, id))
			}
			b.Sales = append(b.Sales, sale(9, "2026-03-10", ledger.PartPayment, 900, "P4"))
		})},
		{name: "set-shared-equally", books: pair(func(b *ledger.Books) {
			b.Pieces[0].Asking, b.Pieces[1].Worth = cents(5000), cents(5000)
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 9000, "P1", "P2")}
			b.Sales[0].DeliveryCharged = 500
		})},
		{name: "sold-without-hours", books: pair(func(b *ledger.Books) {
			b.Hours = []ledger.Hours{hours(2, "2026-03-03", "P2"), hours(3, "2026-03-03", "P2")}
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 9000, "P1")}
		})},
		{name: "sold-for-nothing", books: pair(func(b *ledger.Books) {
			b.Pieces[0].Asking = cents(12000)
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 0, "P1"), sale(3, "2026-03-10", ledger.PartPayment,
				5000, "P2"),
				sale(4, "2026-03-15", ledger.SaleLine, 0, "P2")}
		})},
		{name: "no-fee-worked-out", books: pair(func(b *ledger.Books) {
			b.Channels = []ledger.Channel{{At: at("channels", 2), Name: "market", FromDate: day("2026-03-12"),
				FeePercent: rat("12.5")}}
			early, near, typed, blank := sale(2, "2026-03-10", ledger.PartPayment, 900, "P1"),
				sale(3, "2026-03-15", ledger.SaleLine, 9000, "P1"),
				sale(4, "2026-03-15", ledger.SaleLine, 9000, "P2"), sale(5, "2026-03-16", ledger.PartPayment, 100, "P2")
			near.Channel, typed.Channel, typed.Fee, blank.Channel = "marked", "street", cents(0), ""
			b.Sales = []ledger.Sale{early, near, typed, blank, sale(6, "2026-03-18", ledger.Refund, 100, "P2")}
			b.Sales[4].Channel = "street"
		})},
		{name: "rent-not-in-expenses", books: pair(func(b *ledger.Books) {
			payout := ledger.Payout{On: day("2026-03-31"), Channel: "market", Amount: 9000, Rent: 5500}
			for row := 2; row < 4; row++ {
				payout.At = at("payouts", row)
				payout.Amount += 100
				b.Payouts = append(b.Payouts, payout)
			}
			b.Expenses = []ledger.Expense{{At: at("expenses", 2), On: day("2026-03-01"), What: "booth", Group: "booth rent",
				Amount: 5500},
				{At: at("expenses", 3), On: day("2026-01-01"), What: "booth", Group: "booth rent", Channel: "market", Amount: 5500}}
		})},
		{name: "rent-in-no-channel", books: pair(func(b *ledger.Books) {
			rent := ledger.Expense{What: "booth", Group: "booth rent", Amount: 5500}
			for i, on := range []string{"2026-01-01", "2026-02-01", "2026-03-01"} {
				rent.At, rent.On = at("expenses", 2+i), day(on)
				b.Expenses = append(b.Expenses, rent)
			}
			b.Expenses[1].Channel = "market"
		})},
		{name: "fuel-and-miles", books: pair(func(b *ledger.Books) {
			b.Trips = []ledger.Trip{{At: at("trips", 2), On: day("2026-03-02"), Miles: rat("12")}}
			b.Expenses = []ledger.Expense{{At: at("expenses", 2), On: day("2026-03-01"), What: "Van: Diesel, 40 l",
				Group: "other", Amount: 6000},
				{At: at("expenses", 3), On: day("2025-03-01"), What: "diesel", Group: "other", Amount: 6000}}
		})},
	}
}

// shelfNotes are about supplies, and lines that stand twice.
func shelfNotes(pair builder) []testCase {
	return []testCase{
		{name: "supply-never-bought", books: pair(func(b *ledger.Books) {
			b.Supplies = []ledger.Supply{supply(2, "Primer", "primer"), supply(3, "Spray primer", "primer"),
				supply(4, "Wax", "wax")}
			b.Purchases = []ledger.Purchase{purchase(2, "2026-03-03", "Primer", 2000)}
			b.Openings = []ledger.Opening{{At: at("openings", 2), On: day("2026-01-01"), Supply: "Wax", Amount: rat("0.5"),
				Cost: 900}}
			planned := use(4, "2026-03-05", "Spray primer", "P2")
			planned.Schedule = "Paint"
			b.Uses = []ledger.Use{use(2, "2026-03-07", "Spray primer", "P1"), use(3, "2026-03-07", "Primer", "P1"), planned,
				use(5, "2026-03-07", "Wax", "P1")}
		})},
		{name: "supply-idle", through: "2026-06", books: pair(func(b *ledger.Books) {
			b.Supplies = []ledger.Supply{supply(2, "Primer", "primer"), supply(3, "Rags", "other"), supply(4, "Paint", "paint"),
				supply(5, "Wax", "wax")}
			b.Supplies[1].ShareBy = ledger.ByHours
			b.Purchases = []ledger.Purchase{purchase(2, "2026-03-03", "Primer", 2000), purchase(3, "2026-03-03", "Rags", 700),
				purchase(4, "2026-03-03", "Paint", 3000), purchase(5, "2026-04-03", "Paint", -3000), purchase(6, "2026-03-03",
					"Wax", 500), purchase(7, "2026-05-03", "Primer", 2100)}
			b.Purchases[3].Amount = rat("-1")
			b.Uses = []ledger.Use{use(2, "2026-03-02", "Primer", "P1")}
			b.Counts = []ledger.Count{count(2, "2026-03-31", "Wax", "1")}
		})},
		{name: "same-line-twice", books: pair(func(b *ledger.Books) {
			b.Supplies = []ledger.Supply{supply(2, "Primer", "primer"), supply(3, "Paint", "paint")}
			b.Purchases = []ledger.Purchase{purchase(2, "2026-03-03", "Primer", 2000), purchase(3, "2026-03-03", "Primer", 2000),
				purchase(4, "2026-03-03", "Paint", 2000)}
			for _, u := range []ledger.Use{use(2, "2026-03-05", "Primer", "P1"), use(2, "2026-03-05", "Paint", "P1"),
				use(2, "2026-03-05", "Primer", "P1")} {
				u.Schedule = "Paint"
				again := u
				again.At = at("uses", 9)
				b.Uses = append(b.Uses, u, again)
			}
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.PartPayment, 1000, "P1"),
				sale(3, "2026-03-15", ledger.PartPayment, 1000, "P1")}
			b.Trips = []ledger.Trip{{At: at("trips", 2), On: day("2026-03-02"), Miles: rat("12")},
				{At: at("trips", 3), On: day("2026-03-02"), Miles: rat("24/2")}}
		})},
	}
}
