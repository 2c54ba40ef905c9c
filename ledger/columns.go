package ledger

// Every table says here once what its records answer and which columns they
// have, in the order of its descriptor in templates/tables; a test holds the
// two together. A new column is a line in cells; a new table is a record type
// with these two methods and its slice in tables. The tables of money stand in
// columns_money.go.

// tables are the tables of the books, in the order of their descriptors.
func (b *Books) tables() []table {
	return []table{
		tableOf(&b.Pieces), tableOf(&b.Lots), tableOf(&b.Surfaces), tableOf(&b.Supplies), tableOf(&b.Purchases),
		tableOf(&b.Openings), tableOf(&b.Schedules), tableOf(&b.Uses), tableOf(&b.Parts), tableOf(&b.Hours),
		tableOf(&b.Trips), tableOf(&b.Expenses), tableOf(&b.Equipment), tableOf(&b.Channels), tableOf(&b.Sales),
		tableOf(&b.Counts), tableOf(&b.Moves), tableOf(&b.Removals), tableOf(&b.OtherIncome), tableOf(&b.TaxPaid),
		tableOf(&b.Payouts), tableOf(&b.Statements),
	}
}

// OnOtherRecords are the columns of a table that are no cells of its own
// records: what becomes a record of Sales or Hours, the size of a
// container, which is in the number of containers, and what reached the owner,
// which is in the fee.
var OnOtherRecords = map[string][]string{
	"pieces": {"sold_on", "channel", "sold_price", "fee", "card_fee", "delivery_charged", "delivery_cost", "sales_tax",
		"net", "sold_ticked", "hours"},
	"sales":     {"net"},
	"purchases": {"container"},
}

// AddedColumns are cells that no descriptor has: what reading found out.
var AddedColumns = map[string][]string{"pieces": {"area from"}}

// ownRows is what sales and hours on pieces' own rows count as.
const ownRows = "pieces' own rows"

// record of a lot's piece has its lot's day.
func (p *Piece) record() Record {
	r := Record{Table: "pieces", At: p.At, On: p.GotOn, DayIn: "got_on",
		Cents: p.Price + p.TaxPaid + p.Pickup, Paid: true, Receipt: p.Receipt, about: "piece kind"}
	if p.Lot != "" {
		r.CountsAs, r.DayIn = "lots", ""
	}
	return r
}

func (p *Piece) cells(c *cells) {
	c.text("piece", p.ID)
	c.text("kind", p.Kind)
	c.text("description", p.Description)
	c.text("set", p.Set)
	c.text("how", string(p.How))
	c.day("got_on", p.GotOn)
	c.text("from", p.From)
	c.money("price", &p.Price)
	c.money("tax_paid", &p.TaxPaid)
	c.money("pickup", &p.Pickup)
	c.text("lot", p.Lot)
	c.optional("worth", p.Worth)
	c.area("area", p.Area)
	c.text("area from", string(p.AreaFrom))
	c.text("schedule", p.Schedule)
	c.day("started_on", p.StartedOn)
	c.day("finished_on", p.FinishedOn)
	c.day("listed_on", p.ListedOn)
	c.optional("asking", p.Asking)
	c.whole("made", p.Made)
	c.text("old_finish", p.OldFinish)
	c.text("condition", p.Condition)
	c.text("photo_before", p.PhotoBefore)
	c.text("photo_after", p.PhotoAfter)
	c.text("receipt", p.Receipt)
}

func (l *Lot) record() Record {
	return Record{Table: "lots", At: l.At, On: l.GotOn, DayIn: "got_on",
		Cents: l.Total(), Paid: true, Receipt: l.Receipt, about: "lot"}
}

func (l *Lot) cells(c *cells) {
	c.text("lot", l.ID)
	c.day("got_on", l.GotOn)
	c.text("from", l.From)
	c.money("price", &l.Price)
	c.money("fees", &l.Fees)
	c.money("tax_paid", &l.TaxPaid)
	c.money("pickup", &l.Pickup)
	c.text("share_by", l.ShareBy)
	c.text("receipt", l.Receipt)
}

func (s *Surface) record() Record {
	return Record{Table: "surfaces", At: s.At, Pieces: []string{s.Piece}}
}

func (s *Surface) cells(c *cells) {
	c.text("piece", s.Piece)
	c.text("part", s.Part)
	c.text("shape", s.Shape)
	c.number("count", s.Count)
	c.number("width", s.Width)
	c.number("height", s.Height)
	c.number("top", s.Top)
	c.number("bottom", s.Bottom)
	c.whole("sides", s.Sides)
	c.number("faces", s.Faces)
	c.number("relief", s.Relief)
}

func (s *Supply) record() Record {
	return Record{Table: "supplies", At: s.At}
}

func (s *Supply) cells(c *cells) {
	word := ""
	if s.UseAll {
		word = "all"
	}
	c.text("supply", s.Name)
	c.text("group", s.Group)
	c.text("container", s.Container)
	c.text("share_by", string(s.ShareBy))
	c.numberOr("coverage", s.Coverage, word)
	c.yesNo("stays", s.Stays)
	c.text("caution", s.Caution)
}

func (p *Purchase) record() Record {
	return Record{Table: "purchases", At: p.At, On: p.On, DayIn: "bought_on",
		Cents: p.Total(), Paid: true, Receipt: p.Receipt, about: "supply"}
}

func (p *Purchase) cells(c *cells) {
	c.day("bought_on", p.On)
	c.text("supply", p.Supply)
	c.number("containers", p.Amount)
	c.money("cost", &p.Cost)
	c.money("tax_paid", &p.TaxPaid)
	c.text("from", p.From)
	c.text("receipt", p.Receipt)
}

func (o *Opening) record() Record {
	return Record{Table: "openings", At: o.At, On: o.On, DayIn: "on"}
}

func (o *Opening) cells(c *cells) {
	c.day("on", o.On)
	c.text("supply", o.Supply)
	c.number("amount", o.Amount)
	c.money("cost", &o.Cost)
	c.yesNo("deducted", o.Deducted)
}

func (l *ScheduleLine) record() Record {
	return Record{Table: "schedules", At: l.At}
}

func (l *ScheduleLine) cells(c *cells) {
	c.text("schedule", l.Schedule)
	c.text("supply", l.Supply)
	c.number("coats", l.Coats)
}

func (u *Use) record() Record {
	return Record{Table: "uses", At: u.At, On: u.On, DayIn: "used_on", Pieces: u.Pieces}
}

func (u *Use) cells(c *cells) {
	c.day("used_on", u.On)
	c.names("pieces", u.Pieces)
	c.text("supply", u.Supply)
	c.text("schedule", u.Schedule)
	c.number("area", u.Area)
	c.number("coats", u.Coats)
	c.number("amount", u.Amount)
}

func (p *Part) record() Record {
	return Record{Table: "parts", At: p.At, On: p.On, DayIn: "bought_on",
		Cents: p.Cost + p.TaxPaid, Paid: true, Pieces: p.Pieces, Receipt: p.Receipt, about: "what"}
}

func (p *Part) cells(c *cells) {
	kind := "part"
	if p.Outside {
		kind = "outside work"
	}
	c.day("bought_on", p.On)
	c.names("pieces", p.Pieces)
	c.text("what", p.What)
	c.money("cost", &p.Cost)
	c.money("tax_paid", &p.TaxPaid)
	c.text("type", kind)
	c.text("from", p.From)
	c.text("receipt", p.Receipt)
}

// record of hours on a piece's own row has the row's finished_on, sold_on or
// got_on.
func (h *Hours) record() Record {
	r := Record{Table: "hours", At: h.At, On: h.On, DayIn: "worked_on", Pieces: h.Pieces}
	if h.OwnRow {
		r.CountsAs, r.DayIn = ownRows, ""
	}
	return r
}

func (h *Hours) cells(c *cells) {
	c.day("worked_on", h.On)
	c.names("pieces", h.Pieces)
	c.hours("hours", h.Hours)
	c.text("task", h.Task)
}

func (t *Trip) record() Record {
	return Record{Table: "trips", At: t.At, On: t.On, DayIn: "on",
		Cents: t.Tolls, Paid: true, Pieces: t.Pieces, Receipt: t.Receipt, about: "purpose"}
}

func (t *Trip) cells(c *cells) {
	c.day("on", t.On)
	c.number("miles", t.Miles)
	c.text("purpose", t.Purpose)
	c.text("to", t.To)
	c.money("tolls", &t.Tolls)
	c.names("pieces", t.Pieces)
	c.text("receipt", t.Receipt)
}

func (n *Count) record() Record {
	r := Record{Table: "counts", At: n.At, On: n.On, DayIn: "counted_on"}
	if !n.On.IsZero() {
		r.Month = n.Closes()
	}
	return r
}

func (n *Count) cells(c *cells) {
	c.day("counted_on", n.On)
	c.text("supply", n.Supply)
	c.number("left", n.Left)
	c.number("discarded", n.Discarded)
}

func (m *Move) record() Record {
	return Record{Table: "moves", At: m.At, On: m.On, DayIn: "moved_on", Pieces: []string{m.From, m.To}}
}

func (m *Move) cells(c *cells) {
	c.day("moved_on", m.On)
	c.text("from_piece", m.From)
	c.text("to_piece", m.To)
	c.text("what", m.What)
	c.money("value", &m.Value)
}

func (x *Removal) record() Record {
	return Record{Table: "removals", At: x.At, On: x.On, DayIn: "removed_on",
		Cents: x.Received, Pieces: []string{x.Piece}, Receipt: x.Receipt, about: "piece why"}
}

func (x *Removal) cells(c *cells) {
	c.day("removed_on", x.On)
	c.text("piece", x.Piece)
	c.text("why", x.Why)
	c.money("received", &x.Received)
	c.optional("value", x.Value)
	c.text("receipt", x.Receipt)
}
