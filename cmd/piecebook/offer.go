package main

import (
	"fmt"
	"math/big"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/kinds"
	"piecebook/ledger/measure"
	"piecebook/ledger/offer"
	kindpages "piecebook/report/kinds"
	"piecebook/report/text"
)

type offerCmd struct {
	Kind  string `required:"" help:"What kind it is: dresser, side chair ..." placeholder:"K"`
	Area  string `help:"The area to be finished, in square feet (square metres in a metric shop)." placeholder:"A"`
	Hours string `help:"The hours you think it takes: 7.5 or 7:30." placeholder:"H"`
	New   bool   `help:"It is a kind that the books do not know, though its name is nearly that of one they do."`
	Price string `help:"What you think it sells for." placeholder:"P"`
}

// Run tells the most to pay for a piece in view.
func (k offerCmd) Run(c *cli, w world) error {
	b, err := c.ready(w, 0)
	if err != nil {
		return err
	}
	ask, err := k.ask(b)
	if err != nil {
		return err
	}
	if near := b.nearKind(ask.Kind); near != "" && !k.New {
		return usage(fmt.Sprintf("No piece is of kind %q. Did you mean %s? Type --kind %s. If it is another kind, add --new.", ask.Kind, near, quoted(near)))
	}
	o := offer.Make(b.ledger, ask)
	if len(o.Past)+o.Others == 0 {
		return usage("No piece has been sold yet, so there is nothing to reckon by. Next: write the first sales in Sales.")
	}
	if c.JSON {
		answer, err := kindpages.OfferJSON(o)
		if err != nil {
			return err
		}
		_, err = fmt.Fprintf(w.out, "%s\n", answer)
		return err
	}
	in, err := b.input()
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(w.out, text.Render(kindpages.OfferDoc(in, o)))
	return err
}

// ask reads what the owner says of the piece.
func (k offerCmd) ask(b *books) (offer.Ask, error) {
	set := b.read.Books.Settings
	ask := offer.Ask{Kind: strings.TrimSpace(k.Kind), Usual: b.usualArea(k.Kind)}
	if ask.Kind == "" {
		return ask, usage("Say what kind of piece it is, as in --kind dresser.")
	}
	style := measure.Style{DecimalComma: set.DecimalComma, Currency: set.Currency}
	if k.Area != "" {
		area, refused := measure.Number(k.Area, style)
		if refused != nil || area.Sign() <= 0 {
			return ask, usage(fmt.Sprintf("%q is no area. Type it in %s, as in --area 28.5.", k.Area, set.AreaUnit()))
		}
		ask.Area = area
	}
	if k.Hours != "" {
		hours, refused := measure.ReadHours(k.Hours, style)
		if refused != nil || hours.Sign() < 0 {
			return ask, usage(fmt.Sprintf("%q is no number of hours. Type it as in --hours 7.5 or --hours 7:30.", k.Hours))
		}
		ask.Hours = hours
	}
	if k.Price != "" {
		price, refused := measure.Money(k.Price, style)
		if refused != nil || price < 0 {
			return ask, usage(fmt.Sprintf("%q is no price. Type it as in --price 240.", k.Price))
		}
		ask.Price = &price
	}
	return ask, nil
}

// usualArea is a kind's usual area in the shop's unit; nil where none is known.
func (b *books) usualArea(kind string) *big.Rat {
	area := b.set.Area(kind)
	if area == nil || !b.read.Books.Settings.Metric() {
		return area
	}
	return new(big.Rat).Mul(area, measure.SqFtInSqM())
}

// quoted is a word as a terminal takes it.
func quoted(word string) string {
	if strings.ContainsRune(word, ' ') {
		return `"` + word + `"`
	}
	return word
}

// nearKind is the nearest kind the books know, where they have no piece of the
// one asked for and it is not one of the usual kinds either.
func (b *books) nearKind(kind string) string {
	if b.set.Area(kind) != nil {
		return ""
	}
	var known []string
	for _, p := range b.read.Books.Pieces {
		if kinds.SameKind(p.Kind, kind) {
			return ""
		}
		known = append(known, p.Kind)
	}
	return fault.Nearest(kind, known)
}
