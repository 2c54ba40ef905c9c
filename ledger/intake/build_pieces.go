package intake

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// buildPieces builds Pieces, with the Sales and Hours lines that stand on
// their rows, and fills the lots and sets with them.
func (r *reading) buildPieces() {
	lots := map[string]ledger.Lot{}
	for _, l := range r.books.Lots {
		lots[l.ID] = l
	}
	r.pieceRows = map[string]*record{}
	for _, rec := range r.tables["pieces"] {
		if o := r.names.shared[values.Fold(rec.Raw("lot"))]; o != nil {
			o.any = true
		}
		if rec.Block.Broken || rec.Line.Broken {
			continue
		}
		p := r.pieceRow(rec, lots)
		sale := r.ownSale(rec, &p)
		hours := r.ownHours(rec, p, sale)
		if rec.Refused {
			continue
		}
		r.pieceRows[p.ID] = rec
		r.books.Pieces = append(r.books.Pieces, p)
		if sale != nil {
			r.books.Sales = append(r.books.Sales, *sale)
		}
		if hours != nil {
			r.books.Hours = append(r.books.Hours, *hours)
		}
		for _, name := range []string{p.Lot, p.Set} {
			if o := r.names.shared[values.Fold(name)]; name != "" && o != nil {
				o.pieces[p.ID] = true
			}
		}
	}
	r.emptyLots()
	// Only now: a refused piece must not refuse the others of its lot.
	for _, rec := range r.tables["pieces"] {
		if rec.Refused {
			r.spreadRefusal(rec)
		}
	}
}

// spreadRefusal marks a refused piece, its lot and its set: what names any of
// them would leave the piece out silently.
func (r *reading) spreadRefusal(rec *record) {
	for _, field := range []string{"piece", "lot", "set"} {
		o := r.names.shared[values.Fold(rec.Raw(field))]
		if o == nil || o.refused || field == "piece" && o.at != rec.At {
			continue
		}
		o.refused, o.rec = true, rec
		if field != "piece" {
			o.at = rec.At // where to put it right
		}
	}
}

// emptyLots tells a lot that no piece names; what names the lot would go nowhere too.
func (r *reading) emptyLots() {
	for _, rec := range r.tables["lots"] {
		o := r.names.shared[values.Fold(rec.Raw("lot"))]
		if o == nil || o.at != rec.At || o.any || rec.Refused {
			continue
		}
		rec.Fail("lot", fault.CodeLotEmpty, "No piece belongs to this lot, so its price would go nowhere.",
			"Type this name in the lot column of its pieces.")
		o.refused = true
	}
	r.books.Lots = slices.DeleteFunc(r.books.Lots,
		func(l ledger.Lot) bool { return !r.names.shared[values.Fold(l.ID)].any })
}

// pieceRow reads a row of Pieces without its own sale and hours.
func (r *reading) pieceRow(rec *record, lots map[string]ledger.Lot) ledger.Piece {
	rec.askSupply()
	p := ledger.Piece{At: rec.At, ID: rec.Words("piece"), Kind: rec.kind(), Description: rec.Words("description"),
		How: ledger.How(rec.Choice("how")), GotOn: rec.Date("got_on"), From: rec.Words("from"),
		TaxPaid: rec.Money("tax_paid"), Pickup: rec.Money("pickup"), Lot: rec.lot("lot"), Worth: rec.Worth(),
		Area: rec.Unitted("area", measure.ReadArea), StartedOn: rec.Date("started_on"), FinishedOn: rec.Date("finished_on"),
		ListedOn: rec.Date("listed_on"), Asking: rec.MoneyIf("asking"), Made: rec.Year("made"),
		OldFinish: rec.Choice("old_finish"), Condition: rec.Choice("condition"), PhotoBefore: rec.Words("photo_before"),
		PhotoAfter: rec.Words("photo_after"),
		Receipt:    rec.Words("receipt")}
	if o := r.names.shared[values.Fold(rec.Raw("set"))]; rec.Filled("set") && o != nil {
		p.Set = o.name
	}
	if o := rec.schedule("schedule"); o != nil {
		p.Schedule = o.name
	}
	if p.How == "" {
		p.How = ledger.Bought
	}
	if p.Area != nil {
		p.AreaFrom = ledger.AreaTyped
	}
	rec.noteSeveral(p)
	r.pieceCame(rec, &p, lots)
	return p
}

// pieceCame checks how and when a piece came against its price and lot.
func (r *reading) pieceCame(rec *record, p *ledger.Piece, lots map[string]ledger.Lot) {
	price, priced := rec.MoneyOr("price", false)
	p.Price = price
	if priced && price == 0 && !rec.Filled("how") && rec.SaysFree("price") {
		p.How = ledger.Free
	}
	inLot := rec.Filled("lot")
	gave := p.How == ledger.Bought || p.How == ledger.Traded
	switch {
	case inLot && price != 0:
		rec.Fail("price", fault.CodePriceAndLot, "A piece of a lot has its share of the lot's price, and this one "+
			"has a price too.",
			"Leave the price blank, or take the piece out of the lot.")
	case gave && !inLot && !priced && !rec.Reported("how") && !rec.hasColumn("price"):
		rec.FailColumn("price", fault.CodePriceMissing, func(s *rows.Cause) (string, string) {
			return fmt.Sprintf("There is no column of prices here, and %s that was bought needs a price or a lot (%s).",
					fault.Plural(s.Cells, "a piece", "each piece"), rows.RowList(s.Rows)), r.heads.FixMissing(rec.Block, "price") +
					" Where a piece was free, type free there."
		})
	case gave && !inLot && !priced && !rec.Reported("price") && !rec.Reported("how"):
		rec.Fail("price", fault.CodePriceMissing, fmt.Sprintf("A %s piece needs a price or a lot.", p.How),
			"Type the price, or free if it was free.")
	case (p.How == ledger.Free || p.How == ledger.Client) && price != 0:
		rec.Fail("price", fault.CodePriceOnFree, fmt.Sprintf("A %s piece has no price.", p.How),
			fmt.Sprintf("Leave the price blank, or type bought under %s.", rec.Header("how")))
	}
	lot, known := lots[p.Lot]
	switch {
	case !inLot && p.GotOn.IsZero():
		rec.Missing("got_on")
	case known && !p.GotOn.IsZero() && p.GotOn != lot.GotOn:
		rec.Note("got_on", fault.CodeLotDate, 0, fmt.Sprintf("The piece came with its lot, on %s, so that day is used.",
			lot.GotOn.Written(rec.r.settings.DayFirst)),
			"Leave the day of a lot's piece blank.")
	}
	if known {
		p.GotOn = lot.GotOn
	}
}

// hasColumn says that a row's sheet has a column.
func (rec *record) hasColumn(field string) bool {
	_, there := rec.Block.Columns[field]
	return there
}

// ownSale is the Sales line that stands on a Pieces row, nil where none does.
func (r *reading) ownSale(rec *record, p *ledger.Piece) *ledger.Sale {
	s := ledger.Sale{At: rec.At, On: rec.Date("sold_on"), Pieces: []string{p.ID}, Channel: rec.channel("channel"),
		Type: ledger.SaleLine, DeliveryCharged: rec.Money("delivery_charged"), SalesTax: rec.Money("sales_tax"),
		Fee: rec.MoneyIf("fee"), CardFee: rec.MoneyIf("card_fee"), DeliveryCost: rec.Money("delivery_cost"), OwnRow: true}
	price, priced := rec.MoneyOr("sold_price", false)
	if rec.ticked("sold_ticked") {
		price, priced = rec.tickedPrice(price, priced, p)
	}
	s.Price = price
	sold := rec.Filled("sold_on")
	paid := false
	for _, field := range []string{"sold_price", "fee", "card_fee", "delivery_charged", "delivery_cost", "sales_tax"} {
		paid = paid || rec.Filled(field)
	}
	if net, refusal := values.Money(rec.Cell("net"), r.settings); refusal == nil && net > 0 {
		paid = true // a formula over a piece that is not sold gives 0 or less
	}
	switch {
	case rec.Reported("sold_on"):
	case sold && !priced && !rec.Reported("sold_price"):
		rec.Fail("sold_price", fault.CodeSaleIncomplete, "The piece has a day of sale but no price.", "Type the price, or "+
			"leave all of the sale blank.")
	case paid && !sold:
		rec.Fail("sold_on", fault.CodeSaleIncomplete, "The piece has money of a sale but no day of sale.",
			"Type the day, or "+
				"leave all of the sale blank.")
	}
	if !sold {
		return nil
	}
	rec.feeFromNet(&s)
	p.SoldOnOwnRow = true
	rec.noteUndone(&s)
	return &s
}

// ownHours is the Hours line that stands on a Pieces row, nil where none does.
// A row that is not refused has a day, its own or its lot's.
func (r *reading) ownHours(rec *record, p ledger.Piece, sale *ledger.Sale) *ledger.Hours {
	hours := rec.Hours("hours")
	if hours == nil {
		return nil
	}
	day := p.FinishedOn
	if day.IsZero() && sale != nil {
		day = sale.On
	}
	day = firstGiven(day, p.GotOn)
	return &ledger.Hours{At: rec.At, On: day, Pieces: []string{p.ID}, Hours: hours, OwnRow: true}
}

// buildSurfaces builds Surfaces and gives each piece its area: its own, else
// the sum of its surfaces, else the usual one of its kind with a note.
func (r *reading) buildSurfaces() {
	r.books.Surfaces = each(r, "surfaces", surfaceRow)
	shapes := map[string][]measure.Shape{}
	for _, s := range r.books.Surfaces {
		shapes[s.Piece] = append(shapes[s.Piece], ShapeOf(s))
	}
	for i := range r.books.Pieces {
		p := &r.books.Pieces[i]
		if p.Area != nil {
			continue
		}
		if own := shapes[p.ID]; len(own) > 0 {
			p.Area, p.AreaFrom = measure.Area(r.settings.Metric(), own...).Rounded, ledger.AreaSurfaces
			continue
		}
		if usual := r.set.Area(p.Kind); usual != nil {
			p.Area, p.AreaFrom = r.usualArea(usual), ledger.AreaTypical
			r.pieceRows[p.ID].Note("area", fault.CodeTypicalArea, 0,
				fmt.Sprintf("No area is given, so %s %s, usual for the kind %s, is used.", money.AtMost(p.Area, 2),
					r.settings.AreaUnit(), p.Kind),
				"Type the area, or measure the piece in Surfaces.")
		}
	}
}

// usualArea is a usual area in the shop's unit; a converted one is rounded to
// 0.01, half to even.
func (r *reading) usualArea(sqFt *big.Rat) *big.Rat {
	if !r.settings.Metric() {
		return new(big.Rat).Set(sqFt)
	}
	return money.RoundTo(new(big.Rat).Mul(sqFt, measure.SqFtInSqM()), 2)
}

// surfaceRow reads a row of Surfaces; a shape without a measure it needs is
// reported at that column.
func surfaceRow(rec *record) ledger.Surface {
	s := ledger.Surface{At: rec.At, Piece: rec.piece("piece"), Part: rec.Words("part"), Shape: rec.Choice("shape"),
		Count: rec.NumberOrOne("count"), Width: rec.Length("width"), Height: rec.Length("height"), Top: rec.Length("top"),
		Bottom: rec.Length("bottom"), Sides: rec.Whole("sides"), Faces: rec.NumberOrOne("faces"),
		Relief: rec.NumberOrOne("relief")}
	if s.Shape == "" {
		return s
	}
	for _, refusal := range ShapeOf(s).Check() {
		rec.Refusal(refusal.Field, refusal)
	}
	return s
}

// ShapeOf is a surface as a shape to be measured.
func ShapeOf(s ledger.Surface) measure.Shape {
	return measure.Shape{Name: s.Shape, Count: s.Count, Width: s.Width, Height: s.Height, Top: s.Top, Bottom: s.Bottom,
		Sides: s.Sides, Faces: s.Faces, Relief: s.Relief}
}
