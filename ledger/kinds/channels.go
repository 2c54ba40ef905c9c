package kinds

import (
	"cmp"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// Channel is a place of selling: what came in there in the scope, what it
// took, and what is left before the pieces' own cost. Clients' pieces are not
// in it.
type Channel struct {
	Name     string // blank: none named
	Sold     int    // sale lines' pieces less those that came back
	Receipts money.Cents
	Fees     money.Cents // its own and the card's, less what it gave back
	Delivery money.Cents
	Rent     money.Cents // expenses that name the channel
	Left     money.Cents
}

// channelsOf sums up each channel from the postings of the scope.
func channelsOf(l *costing.Ledger, scope Scope, end calendar.Month) []Channel {
	g := gatherer{at: map[string]int{}}
	clients := map[string]bool{}
	for _, p := range l.Books.Pieces {
		clients[p.ID] = p.How == ledger.Client
	}
	rents := map[fault.Place]string{} // the expense row's place -> its channel
	for _, e := range l.Books.Expenses {
		if e.Channel != "" {
			rents[e.At] = e.Channel
		}
	}
	for _, p := range l.Postings() {
		if scope.Has(p.Date) && p.Month <= end {
			g.post(p, clients[p.Piece], rents)
		}
	}
	for _, s := range l.Books.Sales {
		if scope.Has(s.On) && s.On.InMonth() <= end {
			g.count(s, clients)
		}
	}
	for i := range g.out {
		c := &g.out[i]
		c.Left = c.Receipts - c.Fees - c.Delivery - c.Rent
	}
	out := slices.DeleteFunc(g.out, func(c Channel) bool { return c == Channel{Name: c.Name} })
	slices.SortFunc(out, func(a, b Channel) int { return cmp.Or(cmp.Compare(b.Left, a.Left), cmp.Compare(a.Name, b.Name)) })
	return out
}

type gatherer struct {
	out []Channel
	at  map[string]int
}

// named is the channel of that name, made where it is new.
func (g *gatherer) named(name string) *Channel {
	key := strings.ToLower(strings.TrimSpace(name))
	if _, ok := g.at[key]; !ok {
		g.at[key] = len(g.out)
		g.out = append(g.out, Channel{Name: strings.TrimSpace(name)})
	}
	return &g.out[g.at[key]]
}

// post adds one posting. A client's sales are left out; a rent is the
// channel's whatever it was for.
func (g *gatherer) post(p ledger.Posting, client bool, rents map[fault.Place]string) {
	line, sign := figures.LineOf(figures.OfChannel, &p)
	if line == nil {
		return
	}
	if line.ID == figures.LineExpenses {
		for _, at := range p.Source {
			if name := rents[at]; name != "" {
				g.named(name).Rent += p.Cents
			}
		}
		return
	}
	if client {
		return
	}
	c := g.named(p.Group)
	cents := money.Cents(sign) * p.Cents
	switch line.ID {
	case figures.LineGrossReceipts:
		c.Receipts += cents
	case figures.LineRefunds:
		c.Receipts -= cents
	case figures.LineFees:
		c.Fees += cents
	case figures.LineDelivery:
		c.Delivery += cents
	}
}

// count counts a Sales line's pieces.
func (g *gatherer) count(s ledger.Sale, clients map[string]bool) {
	step := map[ledger.SaleType]int{ledger.SaleLine: 1, ledger.Return: -1}[s.Type]
	for _, id := range s.Pieces {
		if !clients[id] && step != 0 {
			g.named(s.Channel).Sold += step
		}
	}
}
