package ledger

// Every table says here once what its records answer; their columns stand beside
// the fields of their types, in the order of the table's descriptor in
// templates/tables. A test holds the two together. A new column is a field with
// its column; a new table is a record type with its method and its slice in tables.

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

func (l *Lot) record() Record {
	return Record{Table: "lots", At: l.At, On: l.GotOn, DayIn: "got_on",
		Cents: l.Total(), Paid: true, Receipt: l.Receipt, about: "lot"}
}

func (s *Surface) record() Record {
	return Record{Table: "surfaces", At: s.At, Pieces: []string{s.Piece}}
}

func (s *Supply) record() Record {
	return Record{Table: "supplies", At: s.At}
}

func (p *Purchase) record() Record {
	return Record{Table: "purchases", At: p.At, On: p.On, DayIn: "bought_on",
		Cents: p.Total(), Paid: true, Receipt: p.Receipt, about: "supply"}
}

func (o *Opening) record() Record {
	return Record{Table: "openings", At: o.At, On: o.On, DayIn: "on"}
}

func (l *ScheduleLine) record() Record {
	return Record{Table: "schedules", At: l.At}
}

func (u *Use) record() Record {
	return Record{Table: "uses", At: u.At, On: u.On, DayIn: "used_on", Pieces: u.Pieces}
}

func (p *Part) record() Record {
	return Record{Table: "parts", At: p.At, On: p.On, DayIn: "bought_on",
		Cents: p.Cost + p.TaxPaid, Paid: true, Pieces: p.Pieces, Receipt: p.Receipt, about: "what"}
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

func (t *Trip) record() Record {
	return Record{Table: "trips", At: t.At, On: t.On, DayIn: "on",
		Cents: t.Tolls, Paid: true, Pieces: t.Pieces, Receipt: t.Receipt, about: "purpose"}
}

func (n *Count) record() Record {
	r := Record{Table: "counts", At: n.At, On: n.On, DayIn: "counted_on"}
	if !n.On.IsZero() {
		r.Month = n.Closes()
	}
	return r
}

func (m *Move) record() Record {
	return Record{Table: "moves", At: m.At, On: m.On, DayIn: "moved_on", Pieces: []string{m.From, m.To}}
}

func (x *Removal) record() Record {
	return Record{Table: "removals", At: x.At, On: x.On, DayIn: "removed_on",
		Cents: x.Received, Pieces: []string{x.Piece}, Receipt: x.Receipt, about: "piece why"}
}

func (e *Expense) record() Record {
	return Record{Table: "expenses", At: e.At, On: e.On, DayIn: "paid_on",
		Cents: e.Amount, Paid: true, Pieces: e.Pieces, Receipt: e.Receipt, about: "what"}
}

func (e *Equipment) record() Record {
	return Record{Table: "equipment", At: e.At, On: e.On, DayIn: "bought_on",
		Cents: e.Cost + e.TaxPaid, Paid: true, Receipt: e.Receipt, about: "what"}
}

// record of a channel has no day: from_date is when terms begin, no event.
func (t *Channel) record() Record {
	return Record{Table: "channels", At: t.At}
}

func (s *Sale) record() Record {
	r := Record{Table: "sales", At: s.At, On: s.On, DayIn: "sold_on",
		Cents: s.Price + s.DeliveryCharged, Pieces: s.Pieces, Receipt: s.Receipt, about: "type pieces"}
	if s.OwnRow {
		r.CountsAs = ownRows
	}
	return r
}

func (o *OtherIncome) record() Record {
	return Record{Table: "other income", At: o.At, On: o.On, DayIn: "got_on",
		Cents: o.Amount, Receipt: o.Receipt, about: "what"}
}

func (t *TaxPaid) record() Record {
	return Record{Table: "tax paid", At: t.At, On: t.On, DayIn: "paid_on",
		Cents: t.Amount, Paid: true, Receipt: t.Receipt, about: "period"}
}

func (p *Payout) record() Record {
	return Record{Table: "payouts", At: p.At, On: p.On, DayIn: "paid_on",
		Cents: p.Amount, Receipt: p.Receipt, about: "channel"}
}

func (s *Statement) record() Record {
	return Record{Table: "statements", At: s.At, Cents: s.Gross, Receipt: s.Receipt, about: "channel"}
}
