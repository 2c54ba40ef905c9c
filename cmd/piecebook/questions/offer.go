package questions

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
	"piecebook/ledger/kinds"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/ledger/offer"
	kindpages "piecebook/report/kinds"
	"piecebook/templates"
)

type OfferCmd struct {
	Kind      string `required:"" help:"What kind it is: dresser, side chair ..." placeholder:"K"`
	Area      string `help:"The area to be finished, in square feet (square metres in a metric shop)." placeholder:"A"`
	Condition string `help:"Its condition: good, fair or rough." placeholder:"C"`
	Channel   string `help:"Where you would sell it." placeholder:"C"`
	Hours     string `help:"The hours you think it takes: 7.5 or 7:30." placeholder:"H"`
	Parts     string `help:"What you think parts and outside work cost." placeholder:"M"`
	SellsFor  string `help:"What you think it sells for." placeholder:"M"`
	Asked     string `help:"What the seller asks, all there is to pay: the answer is then yes or no." placeholder:"M"`
	New       bool   `help:"It is a kind that the books do not know, though its name is nearly that of one they do."`
}

// Run tells the most to pay for a piece in view.
func (k OfferCmd) Run(c *cli.Call, w terminal.Console) error {
	b, err := readyThrough(c, w, kinds.Scope{})
	if err != nil {
		return err
	}
	ask, err := k.ask(b)
	if err != nil {
		return err
	}
	if near := nearKinds(b, ask.Kind); len(near) > 0 && !k.New {
		text := fmt.Sprintf("No piece is of kind %q. Did you mean %s?", ask.Kind, strings.Join(near, " or "))
		if b.Set.Area(ask.Kind) == nil && !c.InMenu {
			return cli.Usagef("%s Type --kind %s. If it is another kind, add --new.", text, quoted(near[0]))
		}
		fmt.Fprintln(w.Err, text)
	}
	o := offer.Make(b.Ledger, ask)
	if len(o.Past)+o.Others == 0 {
		return cli.Usage("No piece has been sold yet, so there is nothing to go by. Next: write the first sales in Sales.")
	}
	if c.JSON {
		answer, err := kindpages.OfferJSON(o)
		return cli.PrintAnswer(w, answer, err)
	}
	in, err := b.Input()
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(w.Out, w.BoldFirst(c.Text(kindpages.OfferDoc(in, o)), 2))
	return err
}

// ask reads what the owner says of the piece.
func (k OfferCmd) ask(b *cli.Books) (offer.Ask, error) {
	set := b.Read.Books.Settings
	ask := offer.Ask{Kind: strings.TrimSpace(k.Kind), Condition: k.Condition, Channel: k.Channel}
	if ask.Kind == "" {
		return ask, cli.Usage("Say what kind of piece it is, as in --kind dresser.")
	}
	if !slices.Contains([]string{"", "good", "fair", "rough"}, strings.ToLower(strings.TrimSpace(k.Condition))) {
		return ask, cli.Usagef("%q is not a condition. Type good, fair or rough, as in --condition rough.", k.Condition)
	}
	style := measure.Style{DecimalComma: set.DecimalComma, Currency: set.Currency}
	if k.Area != "" {
		area, refused := measure.Number(k.Area, style)
		if refused != nil || area.Sign() <= 0 {
			return ask, cli.Usagef("%q is not an area. Type it in %s, as in --area 28.5.", k.Area, set.AreaUnit())
		}
		ask.Area = area
	}
	if k.Hours != "" {
		hours, refused := measure.ReadHours(k.Hours, style)
		if refused != nil || hours.Sign() < 0 {
			return ask, cli.Usagef("%q is not a number of hours. Type it as in --hours 7.5 or --hours 7:30.", k.Hours)
		}
		ask.Hours = hours
	}
	for _, m := range []struct {
		flag, text string
		into       **money.Cents
	}{{"--parts", k.Parts, &ask.Parts}, {"--sells-for", k.SellsFor, &ask.SellsFor}, {"--asked", k.Asked, &ask.Asked}} {
		if m.text == "" {
			continue
		}
		amount, refused := measure.Money(m.text, style)
		if refused != nil || amount < 0 {
			return ask, cli.Usagef("%q is not an amount. Type it as in %s 240.", m.text, m.flag)
		}
		*m.into = &amount
	}
	return ask, nil
}

// quoted is a word as a terminal takes it.
func quoted(word string) string {
	if strings.ContainsRune(word, ' ') {
		return `"` + word + `"`
	}
	return word
}

// nearKinds is the nearest kind the books know, else those with a word of it,
// where they have no piece of the one asked for; of a usual kind none is meant
// that is only spelled like it.
func nearKinds(b *cli.Books, kind string) []string {
	known := map[string]string{}
	for _, p := range b.Read.Books.Pieces {
		known[templates.KindKey(p.Kind)] = p.Kind
	}
	if known[templates.KindKey(kind)] != "" {
		return nil
	}
	all := slices.Sorted(maps.Values(known))
	if near := fault.Nearest(kind, all); near != "" && b.Set.Area(kind) == nil {
		return []string{near}
	}
	return templates.KindsLike(kind, all)
}
