package checks_test

import "piecebook/ledger"

// errorCases raise the codes that stop a report.
func errorCases() []testCase {
	chest := piece(2, "P1", "2026-03-02", 4000)
	second := piece(3, "P2", "2026-03-02", 2000)
	client := piece(2, "P1", "2026-03-02", 0)
	client.How = ledger.Client
	worked := []ledger.Hours{hours(2, "2026-03-03", "P1", "P2")}
	lone := func(build func(b *ledger.Books)) ledger.Books {
		return with(func(b *ledger.Books) {
			b.Pieces, b.Hours = []ledger.Piece{chest}, worked
			build(b)
		})
	}
	pair := func(build func(b *ledger.Books)) ledger.Books {
		return with(func(b *ledger.Books) {
			one, two := chest, second
			one.Asking, two.Asking = cents(9000), cents(6000)
			b.Pieces, b.Hours = []ledger.Piece{one, two}, worked
			build(b)
		})
	}
	cases := []testCase{
		{name: "before-it-came", books: lone(func(b *ledger.Books) {
			b.Supplies = []ledger.Supply{supply(2, "Primer", "primer")}
			b.Purchases = []ledger.Purchase{purchase(2, "2026-02-01", "Primer", 2000)}
			b.Uses = []ledger.Use{use(2, "2026-02-28", "Primer", "P1"), use(2, "2026-02-28", "Primer", "P1"),
				use(3, "2026-03-02", "Primer", "P1")}
			b.Sales = []ledger.Sale{sale(2, "2026-03-01", ledger.PartPayment, 500, "P1"), sale(3, "2026-03-01", ledger.SaleLine,
				9000, "P1"),
				sale(4, "2026-03-01", ledger.Refund, 300, "P1"), sale(5, "2026-03-01", ledger.Return, 9000, "P1")}
			b.Removals = []ledger.Removal{removal(2, "2026-03-01", "P1", ledger.Kept)}
		})},
		{name: "before-it-came: of a lot", books: lone(func(b *ledger.Books) {
			b.Pieces[0].Lot, b.Pieces[0].Price = "L1", 0
			b.Lots = []ledger.Lot{{At: at("lots", 7), ID: "L1", GotOn: day("2026-03-02"), Price: 100}}
			b.Removals = []ledger.Removal{removal(2, "2026-03-01", "P1", ledger.Kept)}
		})},
		{name: "channel-twice", books: with(func(b *ledger.Books) {
			b.Channels = []ledger.Channel{{At: at("channels", 2), Name: "market", FromDate: day("2026-01-01")},
				{At: at("channels", 3), Name: "Market", FromDate: day("2026-01-01")},
				{At: at("channels", 4), Name: "booth"}, {At: at("channels", 5), Name: "booth"}}
		})},
		{name: "counts-differ", books: with(func(b *ledger.Books) {
			b.Counts = []ledger.Count{count(2, "2026-03-31", "Rags", "0.5"), count(3, "2026-03-31", "Rags", "2/3"),
				count(4, "2026-03-30", "Rags", "1")}
		})},
		{name: "counts-differ: decimal comma", books: with(func(b *ledger.Books) {
			b.Settings.DecimalComma = true
			b.Counts = []ledger.Count{count(2, "2026-03-31", "Rags", "0.5"), count(3, "2026-03-31", "Rags", "2/3")}
		})},
	}
	return append(append(cases, saleErrors(lone, pair)...), moneyErrors(client, lone, pair)...)
}

// builder is a Books begun, to be gone on with.
type builder func(func(b *ledger.Books)) ledger.Books

// saleErrors raise the codes of a piece that leaves twice or comes back
// without having left.
func saleErrors(lone, pair builder) []testCase {
	return []testCase{
		{name: "sold-twice", books: lone(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.SaleLine, 9000, "P1"), sale(3, "2026-03-20", ledger.SaleLine,
				9500, "P1"),
				sale(4, "2026-03-25", ledger.Return, 9500, "P1")}
		})},
		{name: "sold-twice: in a set, on one day", books: pair(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.SaleLine, 9000, "P1", "P2"),
				sale(3, "2026-03-10", ledger.SaleLine, 9500, "P2")}
		})},
		{name: "sold-twice: on its own row", books: lone(func(b *ledger.Books) {
			own := sale(2, "2026-03-15", ledger.SaleLine, 9000, "P1")
			own.At, own.OwnRow, b.Pieces[0].SoldOnOwnRow = b.Pieces[0].At, true, true
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.SaleLine, 9000, "P1"), own}
		})},
		{name: "return-not-sold", books: lone(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.Return, 9000, "P1"), sale(3, "2026-03-20", ledger.SaleLine,
				9500, "P1")}
		})},
		{name: "return-not-sold: removed", books: lone(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.PartPayment, 900, "P1"), sale(3, "2026-03-20", ledger.Return,
				900, "P1")}
			b.Removals = []ledger.Removal{removal(2, "2026-03-15", "P1", ledger.Stolen)}
		})},
		{name: "sale-of-removed", books: lone(func(b *ledger.Books) {
			b.Removals = []ledger.Removal{removal(2, "2026-03-15", "P1", ledger.Donated)}
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.PartPayment, 100, "P1"),
				sale(3, "2026-03-16", ledger.PartPayment, 100, "P1"),
				sale(4, "2026-03-20", ledger.SaleLine, 9000, "P1")}
		})},
		{name: "removed-after-sale", books: lone(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 9000, "P1")}
			b.Removals = []ledger.Removal{removal(2, "2026-03-15", "P1", ledger.Scrapped)}
		})},
		{name: "removed-twice", books: lone(func(b *ledger.Books) {
			b.Removals = []ledger.Removal{removal(2, "2026-03-15", "P1", ledger.ReturnedToSeller), removal(3, "2026-03-18", "P1",
				ledger.Scrapped)}
		})},
	}
}

// moneyErrors raise the codes of money that cannot have gone back or on.
func moneyErrors(client ledger.Piece, lone, pair builder) []testCase {
	return []testCase{
		{name: "removal-does-not-fit", books: lone(func(b *ledger.Books) {
			b.Removals = []ledger.Removal{removal(2, "2026-03-15", "P1", ledger.GivenBack)}
		})},
		{name: "removal-does-not-fit: client", books: lone(func(b *ledger.Books) {
			b.Pieces = []ledger.Piece{client}
			b.Removals = []ledger.Removal{removal(2, "2026-03-15", "P1", ledger.ReturnedToSeller)}
		})},
		{name: "refund-above-paid", books: lone(func(b *ledger.Books) {
			sold := sale(3, "2026-03-15", ledger.SaleLine, 130000, "P1")
			sold.DeliveryCharged = 2500
			b.Sales = []ledger.Sale{sale(2, "2026-03-10", ledger.Refund, 100, "P1"), sold,
				sale(4, "2026-03-15", ledger.Refund, 100000, "P1"), sale(5, "2026-03-18", ledger.Refund, 33000, "P1"),
				sale(6, "2026-03-19", ledger.Refund, 32500, "P1")}
		})},
		{name: "refund-above-paid: one of a set", books: pair(func(b *ledger.Books) {
			b.Sales = []ledger.Sale{sale(2, "2026-03-15", ledger.SaleLine, 10000, "P1", "P2"),
				sale(3, "2026-03-16", ledger.Refund, 4001, "P2"), sale(4, "2026-03-17", ledger.Refund, 10001, "P2", "P1")}
		})},
	}
}
