package offer_test

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/offer"
	"piecebook/templates"
)

// Simulated shops whose truth is known, as books in files: kinds with their
// own long-run averages, pieces round them, failures, rent, and a market that
// may have seasons or drift. What later pieces come to is drawn the same way.

// market is how pieces differ and what prices do over time.
type market struct {
	name   string
	skewed bool    // lognormal, shape 0.8, skewness 3.7, else normal
	season float64 // prices swing so far over a year, as a share
	drift  float64 // prices fall by so much a year, as a share
}

var markets = []market{{name: "normal"}, {name: "skewed", skewed: true}, {name: "seasonal", season: 0.2},
	{name: "drift", drift: 0.25}}

const (
	target    = 20.0 // an hour
	failing   = 0.03 // of pieces are scrapped before any work
	boothFee  = 0.10
	boothPart = 0.5  // of pieces go through the booth
	perCoat   = 0.25 // what a square foot coated once costs
)

// conditions move the price; their mean is 1.
var conditions = []struct {
	name  string
	price float64
}{{"good", 1.12}, {"fair", 1}, {"rough", 0.88}}

// simShop is a shop and its truth. Money is in units here, not cents.
type simShop struct {
	market
	rng    *rand.Rand
	kinds  []simKind
	months int     // of history
	costs  float64 // shop costs of an hour
	usual  float64 // the same by the last twelve months' rent and hours, as the contract has it
	phase  float64
}

type simKind struct {
	name                            string
	price, hours, paid, parts, area float64
}

// simPiece is one piece and what came of it.
type simPiece struct {
	kind                            int
	failed, direct                  bool
	condition                       string
	price, hours, paid, parts, area float64
}

func newShop(m market, seed uint64) *simShop {
	// Hashed, so that neighbouring seeds have nothing in common.
	s := &simShop{market: m, rng: rand.New(rand.NewChaCha8(sha256.Sum256(binary.BigEndian.AppendUint64(nil, seed))))}
	s.months = 12 + s.rng.IntN(19)
	s.costs = 3 + 7*s.rng.Float64()
	s.phase = s.rng.Float64()
	for k := range 4 + s.rng.IntN(5) {
		kind := simKind{name: fmt.Sprintf("kind %c", 'a'+k), hours: 2.5 + 6.5*s.rng.Float64(), paid: 15 + 75*s.rng.Float64(),
			parts: 3 + 12*s.rng.Float64(), area: 10 + 30*s.rng.Float64()}
		wage := 24 + 8*s.rng.NormFloat64()
		kind.price = math.Max(25, (kind.paid+kind.parts+2*perCoat*kind.area+kind.hours*wage)/(1-boothFee*boothPart))
		s.kinds = append(s.kinds, kind)
	}
	return s
}

// level is what prices stand at, so many years from the end of the history.
func (s *simShop) level(years float64) float64 {
	return math.Pow(1-s.drift, years) * (1 + s.season*math.Sin(2*math.Pi*(years+s.phase)))
}

// noise has mean 0 and deviation 1.
func (s *simShop) noise() float64 {
	e := s.rng.NormFloat64()
	if s.skewed {
		const shape = 0.8
		v := math.Exp(shape * shape)
		return (math.Exp(shape*e) - math.Sqrt(v)) / math.Sqrt((v-1)*v)
	}
	return e
}

// piece is one of a kind, sold so many years from the end.
func (s *simShop) piece(kind int, years float64) simPiece {
	k := s.kinds[kind]
	size, condition := s.rng.NormFloat64(), s.rng.IntN(len(conditions))
	return simPiece{kind: kind, condition: conditions[condition].name, failed: s.rng.Float64() < failing,
		direct: s.rng.Float64() > boothPart,
		price:  math.Max(5, k.price*s.level(years)*(conditions[condition].price+0.1*size+0.25*s.noise())),
		hours:  k.hours * math.Max(0.3, 1+0.1*size+0.2*s.rng.NormFloat64()),
		area:   k.area * math.Max(0.3, 1+0.2*size),
		paid:   k.paid * (0.6 + 0.8*s.rng.Float64()), parts: k.parts * (0.5 + s.rng.Float64())}
}

// worth is what it would have been right to pay for it.
func (p simPiece) worth(costs float64) float64 {
	if p.failed {
		return 0
	}
	fee := 0.0
	if !p.direct {
		fee = boothFee
	}
	return p.price*(1-fee) - p.parts - 2*perCoat*p.area - (target+costs)*p.hours
}

// truth is a kind's long-run profit an hour before shop costs, at the end.
func (s *simShop) truth(kind int) float64 {
	k := s.kinds[kind]
	level := 1.0 // of a whole year; a drift stands at its end
	profit := (1-failing)*(k.price*level*(1-boothFee*boothPart)-k.parts-2*perCoat*k.area) - k.paid
	return profit / ((1 - failing) * k.hours)
}

var simStart = calendar.MonthOf(2023, 1)

// books are the shop's records: a Poisson number of pieces of each kind, so
// many on average.
func (s *simShop) books(each float64) fstest.MapFS {
	var pieces, hours, sales, parts, removals, expenses, uses strings.Builder
	first := simStart.First()
	end := (simStart + calendar.Month(s.months) + 2).Last()
	days := end.DaysSince((simStart + 4).First())
	count, worked, coated, lately := distuv.Poisson{Lambda: each, Src: s.rng}, 0.0, 0.0, 0.0
	n := 0
	for k := range s.kinds {
		for range int(count.Rand()) {
			left := end.AddDays(-s.rng.IntN(days))
			p := s.piece(k, float64(left.DaysSince(end))/365.25)
			id := fmt.Sprintf("P%03d", n)
			n++
			got := left.AddDays(-20 - s.rng.IntN(70))
			fmt.Fprintf(&pieces, "%s,%s,%s,%.2f,%.1f,%s\n", id, s.kinds[k].name, got, p.paid, p.area, p.condition)
			if p.failed {
				fmt.Fprintf(&removals, "%s,%s,scrapped\n", left, id)
				continue
			}
			work := got.AddDays(5)
			fmt.Fprintf(&hours, "%s,%s,%.2f\n", work, id, p.hours)
			fmt.Fprintf(&parts, "%s,%s,part,%.2f\n", work, id, p.parts)
			fmt.Fprintf(&uses, "%s,%s,Finish,2\n", work, id)
			channel := "Booth"
			if p.direct {
				channel = "direct"
			}
			fmt.Fprintf(&sales, "%s,%s,%s,%.2f\n", left, id, channel, p.price)
			worked, coated = worked+p.hours, coated+2*p.area
			if end.InMonth()-work.InMonth() < 12 {
				lately += p.hours
			}
		}
	}
	rent := s.costs * worked / float64(s.months+3)
	s.usual = 0
	if lately > 0 {
		s.usual = 12 * rent / lately
	}
	for m := range s.months + 3 {
		fmt.Fprintf(&expenses, "%s,rent,storage,%.2f\n", (simStart + calendar.Month(m)).First(), rent)
	}
	cans := math.Ceil(coated/100) + 1
	file := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	return fstest.MapFS{
		"settings.toml":        file(fmt.Sprintf("target_hourly = %g\n", target)),
		"records/pieces.csv":   file("piece,kind,got_on,price,area,condition\n" + pieces.String()),
		"records/hours.csv":    file("worked_on,pieces,hours\n" + hours.String()),
		"records/parts.csv":    file("bought_on,pieces,what,cost\n" + parts.String()),
		"records/sales.csv":    file("sold_on,pieces,channel,price\n" + sales.String()),
		"records/removals.csv": file("removed_on,piece,why\n" + removals.String()),
		"records/expenses.csv": file("paid_on,what,group,amount\n" + expenses.String()),
		"records/channels.csv": file("channel,fee_percent\nBooth,10\n"),
		"records/supplies.csv": file("supply,group,container,coverage\nFinish,primer,1 qt,100\n"),
		"records/purchases.csv": file(fmt.Sprintf("bought_on,supply,containers,cost\n%s,Finish,%.0f,%.2f\n", first, cans,
			cans*100*perCoat)),
		"records/uses.csv": file("used_on,pieces,supply,coats\n" + uses.String()),
	}
}

// costedShop reads and costs a shop's books.
func (s *simShop) costed(t testing.TB, set *templates.Set, each float64) *costing.Ledger {
	read := intake.Read(s.books(each), set)
	require.Empty(t, read.Problems.Errors())
	l := costing.Run(&read.Books, simStart+calendar.Month(s.months)+2)
	require.Empty(t, l.Problems.Errors())
	return l
}

// ask is what a buyer may know of a piece in view: nothing but its kind, or
// its area, condition and channel and guesses that are off as people's are.
func (s *simShop) ask(p simPiece, knowing bool) offer.Ask {
	ask := offer.Ask{Kind: s.kinds[p.kind].name}
	if !knowing {
		return ask
	}
	guess := func(x, off float64) float64 { return x * math.Max(0.2, 1+off*s.rng.NormFloat64()) }
	price := money.Cents(math.Round(100 * guess(p.price, 0.2)))
	ask.Area = new(big.Rat).SetFloat64(math.Round(p.area*10) / 10)
	ask.SellsFor = &price
	ask.Hours = new(big.Rat).SetFloat64(math.Round(guess(p.hours, 0.25)*100) / 100)
	ask.Condition, ask.Channel = p.condition, "Booth"
	if p.direct {
		ask.Channel = "direct"
	}
	return ask
}
