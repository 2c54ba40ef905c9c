package intake

import (
	"cmp"
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/receipts"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// slip is what a line of Purchases says beyond the supplies there are.
type slip struct {
	many   int
	supply string   // its name as it is kept
	pieces []string // the pieces it names: it is a part of them
}

// isSlips says that a sheet of Purchases is a list of receipts: it has no column of
// containers, or no table lists the supplies and its words are not called that.
func isSlips(rec *record) bool {
	_, listed := rec.r.tables["supplies"]
	return rec.Block.Table.Name == "purchases" && (!hasCount(rec) ||
		!listed && !slices.Contains([]string{"supply", "supplies"}, settings.HeaderKey(rec.Header("supply"))))
}

// hasCount says that a sheet of Purchases has a column of containers.
func hasCount(rec *record) bool {
	_, counts := rec.Block.Columns["containers"]
	return counts
}

// readSlips finds what lines of receipts speak of, before any row is built: a
// supply there is, one by [items], a piece, or else a supply of its own that is
// named as the slip names it. What it cannot place is reported with its money.
func (r *reading) readSlips() {
	r.slips = map[*record]slip{}
	_, listed := r.tables["supplies"]
	for _, rec := range r.tables["purchases"] {
		text := rec.Raw("supply")
		switch {
		case text == "" || rec.Block.Broken || rec.Line.Broken:
			continue
		case r.supplyThere(text) == "" && r.askCameBack(rec, text):
			r.slips[rec] = slip{many: 1}
			continue
		case listed && !isSlips(rec):
			continue
		}
		many, what := 1, text
		if !hasCount(rec) {
			many, what = receipts.ReadSlip(text)
		}
		if of, is := receipts.CameBack(what); is && r.supplyThere(what) == "" && r.supplyThere(of) != "" {
			what = of // its amounts are below 0
		}
		s := slip{many: many}
		switch pieces, beside := r.piecesWithin(what), r.pieceBeside(rec); {
		case beside != "" && r.itemOf(what) == "" && (!listed || r.supplyThere(what) == ""):
			s.pieces = []string{beside}
		case r.supplyThere(what) != "":
			s.supply = r.supplyThere(what)
		case values.Fold(r.itemOf(what)) == settings.NoTable:
			rec.unplaced = true // the owner has said so
			continue
		case r.itemOf(what) != "":
			s.supply = r.newSupply(rec, r.itemOf(what), what)
		case len(pieces) == 1 && isSlips(rec):
			s.pieces = pieces
		default:
			s.supply = r.slipSupply(rec, what)
		}
		switch {
		case s.supply == "" && s.pieces == nil:
			rec.unplaced = true
			switch _, given := rec.Text("cost"); {
			case given && slices.Contains(taxLines, strings.Join(values.Words(what), " ")):
				rec.noteTaxLine(what)
			case given:
				rec.noteUnplaced(what)
			}
		case len(s.pieces) == 1 && r.isPriceOf(rec, what, s.pieces[0]):
			rec.unplaced, rec.elsewhere = true, true
			continue
		}
		r.slips[rec] = s
	}
	for i := range r.bySlip {
		r.sizeOfSlips(&r.bySlip[i])
	}
}

// buyingWords are words beside a piece's name that say no more than that it was bought.
var buyingWords = strings.Fields("bought buy buying purchase purchased paid for got picked up from the a an")

// isPriceOf says that a line of receipts is what a piece itself cost, which Pieces has
// already: the same amount, and the same day or no words for anything else. It is noted.
func (r *reading) isPriceOf(rec *record, what, piece string) bool {
	i := slices.IndexFunc(r.tables["pieces"], func(p *record) bool { return p.Raw("piece") == piece })
	cost, refusal := values.Money(rec.Cell("cost"), r.settings)
	if i < 0 || refusal != nil || cost == 0 {
		return false
	}
	of := r.tables["pieces"][i]
	amount := func(field string) money.Cents {
		c, _ := values.Money(of.Cell(field), r.settings)
		return c
	}
	price, tax, pickup := amount("price"), amount("tax_paid"), amount("pickup")
	named := values.Words(piece)
	isOther := slices.ContainsFunc(values.Words(what), func(w string) bool {
		return !slices.Contains(named, w) && !slices.Contains(buyingWords, w)
	})
	on := rec.Day("bought_on")
	if !slices.Contains([]money.Cents{price, price + tax, price + pickup, price + tax + pickup}, cost) ||
		isOther && (on.IsZero() || on != of.Day("got_on")) {
		return false
	}
	rec.NoteForCause("supply", "price", fault.CodeSlipIsPrice, int64(cost), func(c *rows.Cause) (string, string) {
		return fmt.Sprintf("This is what the piece %s itself cost, which Pieces has already, so it is not counted again.",
			piece) + c.More(), "If it is a part of the same price, say what it is, and enter it in Parts."
	})
	return true
}

// sizeOfSlips gives a supply of its own the container that its lines say, of
// several the smallest of the first kind, whatever their order.
func (r *reading) sizeOfSlips(s *ledger.Supply) {
	var least *measure.Amount
	inBase := func(a measure.Amount) *big.Rat { return new(big.Rat).Mul(a.Value, a.Unit.Base) }
	for _, rec := range r.tables["purchases"] {
		said := rec.Cell("container")
		if _, measured := rec.Block.Units["containers"]; measured && said.Text == "" {
			said = rec.Cell("containers")
		}
		if r.slips[rec].supply != s.Name || said.Text == "" {
			continue
		}
		a, refusal := values.Amount(said, r.settings)
		if refusal != nil || a.Bare || a.Value.Sign() <= 0 {
			continue
		}
		if least == nil || cmp.Or(cmp.Compare(a.Unit.Kind, least.Unit.Kind), inBase(a).Cmp(inBase(*least)),
			cmp.Compare(a.Unit.Name, least.Unit.Name)) < 0 {
			least = &a
			s.Container, s.Unit, s.Size = said.Text, a.Unit.Name, a.Value
		}
	}
}

// supplyThere is the supply of a name, as its own table spells it; blank where
// there is none, or several.
func (r *reading) supplyThere(name string) string {
	if o := r.lookUp(name, r.names.supplies); o != nil {
		return o.name
	}
	if same := r.sameWords(name, "supply", r.names.supplies); len(same) == 1 {
		return same[0].name
	}
	return ""
}

// itemOf is the supply that [items] of settings.toml names for a slip's words:
// that of its longest line that is within them.
func (r *reading) itemOf(what string) (supply string) {
	longest := 0
	for _, key := range slices.Sorted(maps.Keys(r.settings.Items)) {
		if n := len(values.Words(key)); n > longest && receipts.Within(key, what) {
			supply, longest = r.settings.Items[key], n
		}
	}
	return supply
}

// piecesWithin are the pieces whose names stand in a text, none within a longer one.
func (r *reading) piecesWithin(text string) (out []string) {
	for _, rec := range r.tables["pieces"] {
		// A number alone may be anything on a slip.
		if name := rec.Raw("piece"); strings.Trim(name, "0123456789 ") != "" && receipts.Within(name, text) &&
			!slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	all := slices.Clone(out)
	return slices.DeleteFunc(out, func(name string) bool {
		return slices.ContainsFunc(all, func(o string) bool {
			return len(values.Words(o)) > len(values.Words(name)) && receipts.Within(name, o)
		})
	})
}

// pieceBeside is the one piece that a line of receipts says it is for, by its name or
// words of it; blank where there is none, or several.
func (r *reading) pieceBeside(rec *record) string {
	text := ""
	if rec.Block.For > 0 {
		text = rec.Line.Text(rec.Block.For - 1)
	}
	if text == "" {
		return ""
	}
	if o := r.lookUp(text, r.names.shared); o != nil && o.what == "piece" {
		return o.name
	}
	var known []string
	for _, other := range r.tables["pieces"] {
		known = append(known, other.Raw("piece"))
	}
	if of := severalNear(text, known); len(of) == 1 {
		return of[0]
	}
	return ""
}

// slipSupply is the supply of its own that a slip's words name, where they speak
// of a group of supplies. One that has words of a supply there is, and none of
// another group, is proposed as that.
func (r *reading) slipSupply(rec *record, what string) string {
	group := receipts.GroupOf(what, r.groupWord)
	if group == "" && isSlips(rec) {
		return ""
	}
	known := knownNames(r.names.supplies)
	near := sharedWord(what, known)
	if of := receipts.GroupOf(near, r.groupWord); near != "" && (of == "" || group == "" || of == group) {
		r.lines.Propose("items", settings.NameLine(what, near),
			rec.Place("supply"))
	}
	return r.newSupply(rec, what, what)
}

// newSupply is a supply that no table lists: a container is one, and its group is
// guessed by its words.
func (r *reading) newSupply(rec *record, name, words string) string {
	if there := r.supplyThere(name); there != "" {
		return there
	}
	group := receipts.GroupOf(words, r.groupWord)
	if group == "" {
		group = "other"
	}
	r.names.supplies[values.Fold(name)] = &owner{what: "supply", name: name, at: rec.At, pieces: map[string]bool{}}
	r.names.loose = nil
	s := ledger.Supply{At: rec.At, Name: name, Group: group, Container: "1 each", Unit: "each", Size: big.NewRat(1, 1),
		ShareBy: ledger.ByArea}
	if g := r.set.Group(group); g != nil {
		s.Stays = g.Stays
	}
	r.bySlip = append(r.bySlip, s)
	bought := "piece"
	if _, measured := rec.Block.Units["containers"]; measured || rec.Raw("container") != "" {
		bought = "container"
	}
	rec.NoteForCause("supply", "new", fault.CodeSupplyBySlip, 0, func(c *rows.Cause) (string, string) {
		return fmt.Sprintf("This is read as a supply of its own, of the group %s by its words, and bought by the %s.",
				group, bought) + c.More(),
			"If it is a supply of another name, name it under [items] of settings.toml; to say what it is and what it covers, " +
				"list it in Supplies."
	})
	return name
}

// groupWord is the group that a word or phrase speaks of.
func (r *reading) groupWord(phrase string) string {
	if phrase != "other" {
		if group := values.Choice(phrase, r.set.Table("supplies").Field("group").Constraints.Enum); group != "" {
			return group
		}
	}
	return r.set.Meant("supplies.group", phrase)
}

// noteUnplaced notes lines that no supply, group or piece could be found for,
// once a sheet, before all other notes.
func (rec *record) noteUnplaced(what string) {
	cents, _ := values.Money(rec.Cell("cost"), rec.r.settings)
	cause := rec.NoteForCause("supply", "", fault.CodeSlipUnplaced, int64(cents.Abs()),
		func(c *rows.Cause) (string, string) {
			n := max(c.Cells, 1)
			return fmt.Sprintf("%d %s of this list %s neither a supply nor a piece that is known, so %s is in no figure.", n,
					fault.Plural(n, "line", "lines"), fault.Plural(n, "names", "name"), money.Cents(c.Cents).Grouped()),
				fmt.Sprintf("Put the supply it is under [items] of settings.toml, as in %s for one of its own, or type the piece "+
					"it is for into the same cell, or into a column \"For\" (%s). What the shop paid for otherwise "+
					"belongs in Expenses "+
					"or Trips; %s = \"none\" "+
					"then leaves it out here.", settings.NameLine(what, what), rows.RowList(c.Rows), settings.TomlText(what))
		})
	cause.First.First, cause.First.AsksNothing = true, false
}

// startingSlips are the supplies that only slips name, with what their group
// usually covers.
func (r *reading) startingSlips() []ledger.Supply {
	for i := range r.bySlip {
		s := &r.bySlip[i]
		each, _ := measure.FindUnit(s.Unit)
		s.Starting = r.starting(*s, measure.Amount{Value: s.Size, Unit: each}, r.set.Group(s.Group))
	}
	return r.bySlip
}

// placeSlips finishes the supplies that only slips name: one that no line of Uses
// names is shared by the pieces of the month it was bought in, all of it; of one
// that is used the coverage is its group's, or all where that has none.
func (r *reading) placeSlips() {
	used := map[string]bool{}
	for _, u := range r.books.Uses {
		used[u.Supply] = true
	}
	for i := range r.books.Supplies {
		s := &r.books.Supplies[i]
		if !slices.ContainsFunc(r.bySlip, func(b ledger.Supply) bool { return b.Name == s.Name }) {
			continue
		}
		if !used[s.Name] {
			s.ShareBy, s.UseAll = ledger.ByPieces, true
			continue
		}
		s.UseAll = s.Starting == nil
	}
}

// slipParts are the lines of receipts that name a piece.
func (r *reading) slipParts() (out []ledger.Part) {
	for _, rec := range r.tables["purchases"] {
		s, is := r.slips[rec]
		if !is || s.pieces == nil {
			continue
		}
		p := ledger.Part{At: rec.At, On: rec.Date("bought_on"), Pieces: s.pieces, What: rec.Words("supply"),
			Cost: rec.SignedMoney("cost"), TaxPaid: rec.SignedMoney("tax_paid"), From: rec.Words("from"),
			Receipt: rec.Words("receipt")}
		if o := r.names.shared[values.Fold(s.pieces[0])]; o != nil && o.refused {
			rec.dependsOnRefused("supply", "piece "+values.Fold(o.name), o)
		}
		if !rec.Refused {
			out = append(out, p)
		}
	}
	return out
}

// boughtOf is the supply of a line of Purchases, by what its slip says where that
// is how it is named.
func (r *reading) boughtOf(rec *record) *ledger.Supply {
	if s, is := r.slips[rec]; is && s.supply != "" {
		for i := range r.books.Supplies {
			if r.books.Supplies[i].Name == s.supply {
				return &r.books.Supplies[i]
			}
		}
	}
	return r.supplyOf(rec, "supply")
}

// howMany is how many containers a line of Purchases bought: in a list without a
// column of them as many as the slip says, or one; negative where money came back.
func (r *reading) howMany(rec *record, s *ledger.Supply) *big.Rat {
	slip, is := r.slips[rec]
	if _, measured := rec.Block.Units["containers"]; measured {
		return rec.measured("containers", s)
	}
	if hasCount(rec) || !is {
		return rec.Number("containers")
	}
	own := slices.ContainsFunc(r.bySlip, func(x ledger.Supply) bool { return x.Name == slip.supply })
	if slip.many == 1 && !own {
		rec.NoteForCause("supply", "containers", fault.CodeContainersOne, 0, func(s *rows.Cause) (why, fix string) {
			return "There is no column containers here, and this line does not say how many it bought, so it is one." +
				s.More(), "If more were bought, add a column containers with how many."
		})
	}
	n := big.NewRat(int64(slip.many), 1)
	if cents, refusal := values.Money(rec.Cell("cost"), r.settings); refusal == nil && cents < 0 {
		n.Neg(n)
	}
	return n
}
