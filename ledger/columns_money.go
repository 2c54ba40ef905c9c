package ledger

func (e *Expense) record() Record {
	return Record{Table: "expenses", At: e.At, On: e.On, DayIn: "paid_on",
		Cents: e.Amount, Paid: true, Pieces: e.Pieces, Receipt: e.Receipt, about: "what"}
}

func (e *Expense) cells(c *cells) {
	c.day("paid_on", e.On)
	c.text("what", e.What)
	c.text("group", e.Group)
	c.money("amount", &e.Amount)
	c.text("to", e.To)
	c.text("channel", e.Channel)
	c.names("pieces", e.Pieces)
	c.text("receipt", e.Receipt)
}

func (e *Equipment) record() Record {
	return Record{Table: "equipment", At: e.At, On: e.On, DayIn: "bought_on",
		Cents: e.Cost + e.TaxPaid, Paid: true, Receipt: e.Receipt, about: "what"}
}

func (e *Equipment) cells(c *cells) {
	soldFor := &e.SoldFor
	if e.SoldOn.IsZero() {
		soldFor = nil
	}
	c.day("bought_on", e.On)
	c.text("what", e.What)
	c.money("cost", &e.Cost)
	c.money("tax_paid", &e.TaxPaid)
	c.text("life", e.Life)
	c.day("sold_on", e.SoldOn)
	c.optional("sold_for", soldFor)
	c.text("receipt", e.Receipt)
}

// record of a channel has no day: from_date is when terms begin, no event.
func (t *Channel) record() Record {
	return Record{Table: "channels", At: t.At}
}

func (t *Channel) cells(c *cells) {
	c.text("channel", t.Name)
	c.day("from_date", t.FromDate)
	c.number("fee_percent", t.FeePercent)
	c.money("fee_fixed", &t.FeeFixed)
	c.money("fee_least", &t.FeeLeast)
	c.number("card_percent", t.CardPercent)
	c.money("card_fixed", &t.CardFixed)
}

func (s *Sale) record() Record {
	r := Record{Table: "sales", At: s.At, On: s.On, DayIn: "sold_on",
		Cents: s.Price + s.DeliveryCharged, Pieces: s.Pieces, Receipt: s.Receipt, about: "type pieces"}
	if s.OwnRow {
		r.CountsAs = ownRows
	}
	return r
}

func (s *Sale) cells(c *cells) {
	c.day("sold_on", s.On)
	c.names("pieces", s.Pieces)
	c.text("channel", s.Channel)
	c.text("type", string(s.Type))
	c.money("price", &s.Price)
	c.money("delivery_charged", &s.DeliveryCharged)
	c.money("sales_tax", &s.SalesTax)
	c.money("marketplace_tax", &s.MarketplaceTax)
	c.optional("fee", s.Fee)
	c.optional("card_fee", s.CardFee)
	c.money("delivery_cost", &s.DeliveryCost)
	c.text("receipt", s.Receipt)
}

func (o *OtherIncome) record() Record {
	return Record{Table: "other income", At: o.At, On: o.On, DayIn: "got_on",
		Cents: o.Amount, Receipt: o.Receipt, about: "what"}
}

func (o *OtherIncome) cells(c *cells) {
	c.day("got_on", o.On)
	c.text("what", o.What)
	c.text("group", o.Group)
	c.money("amount", &o.Amount)
	c.text("receipt", o.Receipt)
}

func (t *TaxPaid) record() Record {
	return Record{Table: "tax paid", At: t.At, On: t.On, DayIn: "paid_on",
		Cents: t.Amount, Paid: true, Receipt: t.Receipt, about: "period"}
}

func (t *TaxPaid) cells(c *cells) {
	c.day("paid_on", t.On)
	c.text("period", t.Period)
	c.money("amount", &t.Amount)
	c.money("kept", &t.Kept)
	c.text("receipt", t.Receipt)
}

func (p *Payout) record() Record {
	return Record{Table: "payouts", At: p.At, On: p.On, DayIn: "paid_on",
		Cents: p.Amount, Receipt: p.Receipt, about: "channel"}
}

func (p *Payout) cells(c *cells) {
	c.day("paid_on", p.On)
	c.text("channel", p.Channel)
	c.money("amount", &p.Amount)
	c.day("through", p.Through)
	c.money("rent", &p.Rent)
	c.money("other", &p.Other)
	c.text("receipt", p.Receipt)
}

func (s *Statement) record() Record {
	return Record{Table: "statements", At: s.At, Cents: s.Gross, Receipt: s.Receipt, about: "channel"}
}

func (s *Statement) cells(c *cells) {
	c.whole("year", s.Year)
	c.text("channel", s.Channel)
	c.money("gross", &s.Gross)
	c.text("receipt", s.Receipt)
}
