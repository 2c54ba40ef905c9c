package checks_test

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// A case is a tiny Books made to raise one code. Its name is the code, or the
// code, a colon and what is particular about it.
type testCase struct {
	name    string
	through string // month; blank: the last one
	books   ledger.Books
}

func day(text string) calendar.Date {
	d, err := calendar.Parse(text)
	if err != nil {
		panic(err)
	}
	return d
}

func rat(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return r
}

func cents(c money.Cents) *money.Cents { return &c }

func at(table string, row int) fault.Place {
	return fault.Place{File: "records/" + table + ".csv", Row: row}
}

// piece is a bought one with the fewest fields.
func piece(row int, id, got string, price money.Cents) ledger.Piece {
	return ledger.Piece{At: at("pieces", row), ID: id, Kind: "chest", How: ledger.Bought, GotOn: day(got), Price: price}
}

func sale(row int, on string, kind ledger.SaleType, price money.Cents, pieces ...string) ledger.Sale {
	return ledger.Sale{At: at("sales", row), On: day(on), Pieces: pieces, Channel: "market", Type: kind, Price: price}
}

func hours(row int, on string, pieces ...string) ledger.Hours {
	return ledger.Hours{At: at("hours", row), On: day(on), Pieces: pieces, Hours: rat("2")}
}

func removal(row int, on, piece, why string) ledger.Removal {
	return ledger.Removal{At: at("removals", row), On: day(on), Piece: piece, Why: why}
}

// supply is a quart shared by area.
func supply(row int, name, group string) ledger.Supply {
	return ledger.Supply{At: at("supplies", row), Name: name, Group: group, Container: "1 qt", Unit: "qt",
		Size: rat("1"), ShareBy: ledger.ByArea, Starting: rat("100")}
}

func purchase(row int, on, supply string, cost money.Cents) ledger.Purchase {
	return ledger.Purchase{At: at("purchases", row), On: day(on), Supply: supply, Amount: rat("1"), Cost: cost}
}

func use(row int, on, supply string, pieces ...string) ledger.Use {
	return ledger.Use{At: at("uses", row), On: day(on), Pieces: pieces, Supply: supply, Area: rat("20"), Coats: rat("2")}
}

func count(row int, on, supply, left string) ledger.Count {
	return ledger.Count{At: at("counts", row), On: day(on), Supply: supply, Left: rat(left)}
}

func part(row int, on string, cost money.Cents, pieces ...string) ledger.Part {
	return ledger.Part{At: at("parts", row), On: day(on), Pieces: pieces, What: "knobs", Cost: cost}
}

func move(row int, on, from, to string, value money.Cents) ledger.Move {
	return ledger.Move{At: at("moves", row), On: day(on), From: from, To: to, What: "pulls", Value: value}
}

// settings with the defaults the checks look at.
func settings() ledger.Settings {
	return ledger.Settings{TargetHourly: 2500, Mileage: []ledger.MileageRate{
		{From: day("2025-01-01"), PerMile: rat("0.70")}, {From: day("2026-01-01"), PerMile: rat("0.725")}}}
}

// with is a Books of the given parts, with the default settings.
func with(build func(b *ledger.Books)) ledger.Books {
	b := ledger.Books{Settings: settings()}
	build(&b)
	return b
}

// clean is a books folder with every table in which nothing is worth a word.
func clean() ledger.Books {
	return with(func(b *ledger.Books) {
		p1, p2 := piece(2, "P1", "2026-03-02", 4000), piece(3, "P2", "2026-03-05", 0)
		p1.Area, p1.StartedOn, p1.FinishedOn, p1.ListedOn = rat("30"), day("2026-03-04"), day("2026-03-20"), day("2026-03-20")
		p2.How, p2.Area = ledger.Client, rat("12")
		p3, p4 := piece(4, "P3", "2026-03-06", 0), piece(5, "P4", "2026-03-06", 0)
		p3.Lot, p4.Lot, p3.Worth, p4.Worth, p3.Asking, p4.Asking = "L1", "L1", cents(500), cents(700), cents(9000),
			cents(9500)
		b.Pieces = []ledger.Piece{p1, p2, p3, p4}
		b.Lots = []ledger.Lot{{At: at("lots", 2), ID: "L1", GotOn: day("2026-03-06"), Price: 6000}}
		b.Surfaces = []ledger.Surface{{At: at("surfaces", 2), Piece: "P1", Part: "top", Shape: "rectangle"}}
		b.Supplies = []ledger.Supply{supply(2, "Primer", "primer"), supply(3, "Rags", "other")}
		b.Supplies[1].ShareBy = ledger.ByPieces
		b.Purchases = []ledger.Purchase{purchase(2, "2026-03-03", "Primer", 2000), purchase(3, "2026-01-03", "Rags", 500)}
		b.Openings = []ledger.Opening{{At: at("openings", 2), On: day("2026-03-01"), Supply: "Primer", Amount: rat("1/2"),
			Cost: 900}}
		b.Uses = []ledger.Use{use(2, "2026-03-07", "Primer", "P1", "P3")}
		b.Parts = []ledger.Part{part(2, "2026-02-20", 1200, "P1")}
		b.Hours = []ledger.Hours{hours(2, "2026-03-07", "P1", "P2", "P3", "P4"), hours(3, "2026-04-07")}
		b.Trips = []ledger.Trip{{At: at("trips", 2), On: day("2026-03-02"), Miles: rat("12"), Pieces: []string{"P1"}},
			{At: at("trips", 3), On: day("2026-04-02"), Miles: rat("12")}}
		b.Expenses = []ledger.Expense{
			{At: at("expenses", 2), On: day("2026-03-01"), What: "gas bill", Group: "utilities", Amount: 4000},
			{At: at("expenses", 3), On: day("2026-03-01"), What: "booth", Group: "booth rent", Channel: "market", Amount: 5500},
			{At: at("expenses", 4), On: day("2026-03-01"), What: "gasket", Group: "repairs", Amount: 300}}
		b.Channels = []ledger.Channel{{At: at("channels", 2), Name: "market", FeePercent: rat("10")},
			{At: at("channels", 3), Name: "market", FromDate: day("2026-03-15"), FeePercent: rat("12")}}
		b.Sales = []ledger.Sale{sale(2, "2026-02-20", ledger.PartPayment, 3000, "P1"), sale(3, "2026-03-25", ledger.SaleLine,
			12000, "P1"),
			sale(4, "2026-03-27", ledger.Return, 15000, "P1"), sale(5, "2026-03-27", ledger.SaleLine, 14000, "P1"),
			sale(6, "2026-03-28", ledger.SaleLine, 18000, "P3", "P4"), sale(7, "2026-03-28", ledger.Refund, 500, "P1")}
		b.Counts = []ledger.Count{count(2, "2026-04-02", "Primer", "0.5"), count(3, "2026-04-03", "Primer", "0.4")}
		b.Moves = []ledger.Move{move(2, "2026-03-08", "P1", "P3", 5200)}
		b.Removals = []ledger.Removal{removal(2, "2026-03-30", "P2", ledger.GivenBack)}
		b.Payouts = []ledger.Payout{{At: at("payouts", 2), On: day("2026-03-31"), Channel: "market", Amount: 9000,
			Rent: 5500}}
		b.OtherIncome = []ledger.OtherIncome{{At: at("other income", 2), On: day("2026-03-31"), What: "tin", Group: "scrap",
			Amount: 100}}
		b.TaxPaid = []ledger.TaxPaid{{At: at("tax paid", 2), On: day("2026-03-31"), Amount: 100}}
		b.Statements = []ledger.Statement{{At: at("statements", 2), Year: 2026, Channel: "market", Gross: 100}}
		b.Equipment = []ledger.Equipment{{At: at("equipment", 2), On: day("2026-03-01"), What: "sander", Cost: 8000}}
	})
}
