package kinds

import (
	"cmp"
	"math/big"
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
	Trips    money.Cents // for pieces sold there
	Left     money.Cents
	Hours    *big.Rat     // worked on the pieces sold there in the scope
	PerPiece *money.Cents // left; nil where nothing was sold
	PerHour  *money.Cents // left; nil without hours
	under    map[figures.ID][]part
}

// part is what a posting adds to an amount.
type part struct {
	posting *ledger.Posting
	cents   money.Cents
}

// Has says that the channel's amounts have postings; all channels together have none
// of their own.
func (c Channel) Has() bool { return c.under != nil }

// Under are the postings of an amount, with the cents they add to it: of
// receipts by the line of gross receipts, of rent by that of expenses.
func (c Channel) Under(id figures.ID) []ledger.Posting {
	out := make([]ledger.Posting, len(c.under[id]))
	for i, p := range c.under[id] {
		out[i] = *p.posting
		out[i].Cents = p.cents
	}
	return out
}

// Channels is the channels alone, of each scope up to the end of a month.
func Channels(l *costing.Ledger, lives []Life, end calendar.Month, scopes ...Scope) [][]Channel {
	out := make([][]Channel, len(scopes))
	for i, scope := range scopes {
		out[i] = channelsOf(l, lives, scope, end)
	}
	return out
}

// MonthScope is one month's scope.
func MonthScope(m calendar.Month) Scope { return Scope{Year: m.Year(), First: m.Of(), Last: m.Of()} }

// channelsOf sums up each channel from the postings of the scope.
func channelsOf(l *costing.Ledger, lives []Life, scope Scope, end calendar.Month) []Channel {
	g := gatherer{at: map[string]int{}, sold: map[string]string{}}
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
	for _, x := range lives {
		if !x.Sold() || x.Client() {
			continue
		}
		g.sold[x.Record.ID] = x.Channel
		if scope.Has(x.Left) {
			c := g.named(x.Channel)
			c.Hours.Add(c.Hours, x.Hours)
		}
	}
	postings := l.Postings()
	for i := range postings {
		if p := &postings[i]; scope.Has(p.Date) && p.Month <= end {
			g.post(p, clients[p.Piece], rents)
		}
	}
	for _, s := range l.Books.Sales {
		if scope.Has(s.On) && s.On.InMonth() <= end {
			g.count(s, clients)
		}
	}
	for c := range ledger.Each(g.out) {
		c.Left = c.Receipts - c.Fees - c.Delivery - c.Rent - c.Trips
		c.PerPiece, c.PerHour = per(c.Left, big.NewRat(int64(c.Sold), 1)), per(c.Left, c.Hours)
	}
	out := slices.DeleteFunc(g.out, func(c Channel) bool {
		return c.Sold == 0 && c.Receipts == 0 && c.Fees == 0 && c.Delivery == 0 && c.Rent == 0 && c.Trips == 0 &&
			c.Hours.Sign() == 0
	})
	slices.SortFunc(out, func(a, b Channel) int {
		return cmp.Or(cmp.Compare(b.Left, a.Left), cmp.Compare(a.Name,
			b.Name))
	})
	return out
}

// Everywhere is the channels' sum.
func Everywhere(channels []Channel) Channel {
	sum := Channel{Hours: new(big.Rat)}
	for _, c := range channels {
		sum.Sold, sum.Receipts, sum.Fees, sum.Delivery = sum.Sold+c.Sold, sum.Receipts+c.Receipts, sum.Fees+c.Fees,
			sum.Delivery+c.Delivery
		sum.Rent, sum.Trips, sum.Left = sum.Rent+c.Rent, sum.Trips+c.Trips, sum.Left+c.Left
		sum.Hours.Add(sum.Hours, c.Hours)
	}
	sum.PerPiece, sum.PerHour = per(sum.Left, big.NewRat(int64(sum.Sold), 1)), per(sum.Left, sum.Hours)
	return sum
}

type gatherer struct {
	out  []Channel
	at   map[string]int
	sold map[string]string // the channel of each piece sold
}

// named is the channel of that name, made where it is new.
func (g *gatherer) named(name string) *Channel {
	key := strings.ToLower(strings.TrimSpace(name))
	if _, ok := g.at[key]; !ok {
		g.at[key] = len(g.out)
		g.out = append(g.out, Channel{Name: strings.TrimSpace(name), Hours: new(big.Rat)})
	}
	return &g.out[g.at[key]]
}

// post adds one posting. A client's sales are left out; a rent is the
// channel's whatever it was for; a trip is that of the piece's sale.
func (g *gatherer) post(p *ledger.Posting, client bool, rents map[fault.Place]string) {
	line, sign := figures.LineOf(figures.OfChannel, p)
	if line == nil {
		return
	}
	if line.ID == figures.LineExpenses {
		for _, at := range p.Source {
			if name := rents[at]; name != "" {
				c := g.named(name)
				c.Rent += p.Cents
				c.add(line.ID, p, p.Cents)
			}
		}
		return
	}
	channel := p.Group
	if line.ID == figures.LineTrips {
		sold := false
		if channel, sold = g.sold[p.Piece]; !sold {
			return
		}
	}
	if client {
		return
	}
	c := g.named(channel)
	cents := money.Cents(sign) * p.Cents
	switch line.ID {
	case figures.LineGrossReceipts:
		c.Receipts += cents
	case figures.LineRefunds:
		c.Receipts -= cents
		cents = -cents
	case figures.LineFees:
		c.Fees += cents
	case figures.LineDelivery:
		c.Delivery += cents
	case figures.LineTrips:
		c.Trips += cents
	}
	id := line.ID
	if id == figures.LineRefunds {
		id = figures.LineGrossReceipts
	}
	c.add(id, p, cents)
}

// add keeps a posting under an amount, with the cents it adds to it.
func (c *Channel) add(id figures.ID, p *ledger.Posting, cents money.Cents) {
	if c.under == nil {
		c.under = map[figures.ID][]part{}
	}
	c.under[id] = append(c.under[id], part{p, cents})
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
