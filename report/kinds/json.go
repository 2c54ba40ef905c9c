package kinds

import (
	"encoding/json"
	"fmt"
	"math"
	"math/big"

	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

// The schemas of what kinds --json and offer --json give. Money is a string
// with two decimals; an estimate is one too, rounded half to even; what has no
// value is null.
const (
	KindsSchema = "piecebook/kinds/2"
	OfferSchema = "piecebook/offer/2"
)

type kindsJSON struct {
	Schema   string         `json:"schema"`
	Scope    string         `json:"scope"`
	Through  string         `json:"through"`
	Currency string         `json:"currency"`
	Target   money.Cents    `json:"target_hourly"`
	Costs    *money.Cents   `json:"usual_shop_costs_per_hour"`
	Trend    *trendJSON     `json:"trend"`
	Kinds    []kindJSON     `json:"kinds"`
	Shop     kindJSON       `json:"shop"`
	Channels []channelJSON  `json:"channels"`
	Client   clientJSON     `json:"client"`
	Coverage []coverageJSON `json:"coverage"`
	Unlisted int            `json:"sold_without_listing"`
}

type trendJSON struct {
	Share  *string `json:"share_of_receipts_a_year"`
	Chance *string `json:"chance"`
}

type rangeJSON struct {
	Low  *money.Cents `json:"low"`
	High *money.Cents `json:"high"`
}

type kindJSON struct {
	Kind           string       `json:"kind"`
	Place          *int         `json:"place"`
	Got            int          `json:"got"`
	Finished       int          `json:"finished"`
	Sold           int          `json:"sold"`
	Lost           int          `json:"lost"`
	InStock        int          `json:"in_stock"`
	WithHours      int          `json:"with_hours"`
	Sales          int          `json:"sales"`
	Hours          string       `json:"hours"`
	Receipts       money.Cents  `json:"receipts"`
	SoldLessBought money.Cents  `json:"sold_less_bought"`
	Profit         money.Cents  `json:"profit"`
	Median         *money.Cents `json:"profit_median"`
	Least          *money.Cents `json:"profit_least"`
	Most           *money.Cents `json:"profit_most"`
	PerHour        *money.Cents `json:"profit_per_hour"`
	Error          *money.Cents `json:"profit_per_hour_error"`
	Expected       *money.Cents `json:"expected_per_hour"`
	Low            *money.Cents `json:"expected_low"`
	High           *money.Cents `json:"expected_high"`
	After          *money.Cents `json:"expected_per_hour_after_shop_costs"`
	Beats          *string      `json:"chance_of_target_after_shop_costs"`
	Best           *string      `json:"chance_to_be_best"`
	Next           *rangeJSON   `json:"next_piece_per_hour"`
	NextFive       *rangeJSON   `json:"next_five_per_hour"`
	Kept           *string      `json:"own_weight"`
	PerCoated      *money.Cents `json:"profit_per_coated_area"`
	Margin         *string      `json:"margin"`
	AtALoss        int          `json:"sold_at_a_loss"`
	Listed         int          `json:"listed"`
	Within         []soldJSON   `json:"sold_within"`
	BenchToListed  *daysJSON    `json:"days_bench_to_listing"`
	ListedToSold   *daysJSON    `json:"days_listing_to_sale"`
	Held           *daysJSON    `json:"days_held"`
	TiedUp         money.Cents  `json:"tied_up"`
	TiedHours      string       `json:"tied_up_hours"`
	Pieces         []string     `json:"pieces"`
}

type soldJSON struct {
	Days  int     `json:"days"`
	Share *string `json:"share"`
	Low   *string `json:"low"`
	High  *string `json:"high"`
}

type daysJSON struct {
	N      int `json:"pieces"`
	Least  int `json:"least"`
	Median int `json:"median"`
	Most   int `json:"most"`
}

type channelJSON struct {
	Channel  string       `json:"channel"`
	Sold     int          `json:"sold"`
	Receipts money.Cents  `json:"receipts"`
	Fees     money.Cents  `json:"fees"`
	Delivery money.Cents  `json:"delivery"`
	Rent     money.Cents  `json:"rent"`
	Trips    money.Cents  `json:"trips"`
	Left     money.Cents  `json:"left"`
	Hours    string       `json:"hours"`
	PerPiece *money.Cents `json:"left_per_piece"`
	PerHour  *money.Cents `json:"left_per_hour"`
}

type clientJSON struct {
	Done     int          `json:"done"`
	InHand   int          `json:"in_hand"`
	Receipts money.Cents  `json:"receipts"`
	Profit   money.Cents  `json:"profit"`
	Hours    string       `json:"hours"`
	PerHour  *money.Cents `json:"profit_per_hour"`
}

type coverageJSON struct {
	Supply   string       `json:"supply"`
	SharedBy string       `json:"shared_by"`
	Own      string       `json:"own"`
	Stated   *string      `json:"stated"`
	Usual    bool         `json:"stated_is_usual"`
	Counts   int          `json:"counts"`
	From     string       `json:"from"`
	To       string       `json:"to"`
	Price    *money.Cents `json:"last_price"`
}

// JSON is the kinds for other programs.
func JSON(r kinds.Report, currency string) ([]byte, error) {
	out := kindsJSON{Schema: KindsSchema, Scope: r.Scope.String(), Through: r.End.String(), Currency: currency,
		Target: r.Target, Kinds: []kindJSON{}, Shop: kindToJSON(r.Shop, r), Channels: []channelJSON{},
		Coverage: []coverageJSON{}, Unlisted: r.Unlisted, Client: clientJSON{r.Clients.Done, r.Clients.InHand,
			r.Clients.Receipts, r.Clients.Result, money.AtMost(r.Clients.Hours, 4), r.Clients.PerHour}}
	if r.Costs.Known {
		out.Costs = &r.Costs.AnHour
	}
	if r.Trend.Known {
		out.Trend = &trendJSON{shareText(r.Trend.Share, true), shareText(r.Trend.Chance, true)}
	}
	for _, k := range r.Kinds {
		out.Kinds = append(out.Kinds, kindToJSON(k, r))
	}
	for _, c := range r.Channels {
		out.Channels = append(out.Channels, channelJSON{c.Name, c.Sold, c.Receipts, c.Fees, c.Delivery, c.Rent, c.Trips,
			c.Left, money.AtMost(c.Hours, 4), c.PerPiece, c.PerHour})
	}
	for _, c := range r.Coverage {
		stated, usual := c.Stated()
		out.Coverage = append(out.Coverage, coverageJSON{c.Supply.Name, string(c.Supply.ShareBy), money.AtMost(c.Own, 4),
			ratText(stated), usual, c.Spans, c.From.String(), c.To.String(), c.Newest})
	}
	return json.MarshalIndent(out, "", "  ")
}

// kindToJSON is a kind.
func kindToJSON(k kinds.Kind, r kinds.Report) kindJSON {
	e := k.Estimate
	out := kindJSON{Kind: k.Name, Got: k.Got, Finished: k.Finished, Sold: k.Sold, Lost: k.Lost, InStock: k.InStock,
		WithHours: k.Timed, Sales: k.Estimate.Sales, Hours: money.AtMost(k.Hours, 4), Receipts: k.Receipts,
		SoldLessBought: k.SoldLessBought, Profit: k.Result, Median: k.Median, Least: k.Least, Most: k.Most,
		PerHour: k.PerHour, Error: centsOf(e.Error), PerCoated: k.PerCoated, Margin: ratText(k.Margin), AtALoss: k.AtALoss,
		Listed: k.Listed, Within: []soldJSON{}, BenchToListed: daysToJSON(k.BenchToListed),
		ListedToSold: daysToJSON(k.ListedToSold), Held: daysToJSON(k.Held), TiedUp: k.TiedUp,
		TiedHours: money.AtMost(k.TiedHours, 4), Pieces: []string{}}
	if e.Place > 0 {
		out.Place = &e.Place
	}
	if e.Known {
		out.Expected, out.Low, out.High, out.After = centsOf(e.Expected), centsOf(e.Low), centsOf(e.High), centsOf(after(r,
			e.Expected))
		out.Beats, out.Best, out.Kept = shareText(e.Beats, true), shareText(e.Best,
			k.Name != r.Shop.Name), shareText(e.Kept, true)
		out.Next, out.NextFive = rangeToJSON(e.Next.Low, e.Next.High), rangeToJSON(e.NextFive.Low, e.NextFive.High)
	}
	for _, s := range e.Within {
		out.Within = append(out.Within, soldJSON{s.Days, shareText(s.Share, s.Known), shareText(s.Low, s.Known),
			shareText(s.High, s.Known)})
	}
	for _, x := range k.Judged {
		out.Pieces = append(out.Pieces, x.Record.ID)
	}
	return out
}

// rangeToJSON is a range to the cent; null where it is not known.
func rangeToJSON(low, high float64) *rangeJSON {
	if math.IsNaN(low) {
		return nil
	}
	return &rangeJSON{centsOf(low), centsOf(high)}
}

func daysToJSON(d kinds.Days) *daysJSON {
	if d.N == 0 {
		return nil
	}
	return &daysJSON{d.N, d.Least, d.Median, d.Most}
}

// centsOf is an estimate to the cent; null where it is not known.
func centsOf(x float64) *money.Cents {
	if c, ok := kinds.Rounded(x, 1); ok {
		return &c
	}
	return nil
}

// shareText is a share or chance to four decimals; null where it is not known.
func shareText(x float64, known bool) *string {
	if !known || math.IsNaN(x) {
		return nil
	}
	s := fmt.Sprintf("%.4f", x)
	return &s
}

func ratText(x *big.Rat) *string {
	if x == nil {
		return nil
	}
	s := money.Fixed(x, 4)
	return &s
}
