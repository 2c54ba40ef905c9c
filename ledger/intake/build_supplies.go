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
	"piecebook/templates"
)

// supplyRow reads a row of Supplies with the defaults of its group.
func (r *reading) supplyRow(rec *record) ledger.Supply {
	s := ledger.Supply{At: rec.At, Name: rec.Words("supply"), Group: rec.Choice("group"),
		Container: rec.Cell("container").Text,
		ShareBy:   ledger.ShareBy(rec.Choice("share_by")), Caution: rec.Words("caution")}
	if s.ShareBy == "" {
		s.ShareBy = ledger.ByArea
	}
	s.Coverage, s.UseAll = rec.Coverage("coverage", s.ShareBy)
	group := r.set.Group(s.Group)
	if yes, given := rec.YesNo("stays"); given {
		s.Stays = yes
	} else if group != nil {
		s.Stays = group.Stays
	}
	container, ok := rec.Container("container")
	if !ok {
		return s
	}
	s.Unit, s.Size = container.Unit.Name, container.Value
	rec.noteOunces("container", s.Group, container)
	s.Starting = r.starting(s, container, group)
	return s
}

// starting is the group's starting coverage of one container, in what the
// supply is shared by: square feet (square metres) once over, hours, pieces;
// nil where there is none.
func (r *reading) starting(s ledger.Supply, container measure.Amount, group *templates.SupplyGroup) *big.Rat {
	perUnit := func(figure *big.Rat, unit string) *big.Rat {
		if figure == nil {
			return nil
		}
		u := container.Unit
		if unit != "" {
			u, _ = measure.FindUnit(unit)
		}
		amount := new(big.Rat).Mul(container.Value, container.Unit.In(u))
		return amount.Mul(amount, figure)
	}
	counted := container.Unit.Kind == measure.Count
	switch {
	case s.ShareBy == ledger.ByHours && counted:
		return perUnit(r.set.PerUnit.Hours, "")
	case s.ShareBy == ledger.ByPieces && counted:
		return perUnit(r.set.PerUnit.Pieces, "")
	case s.ShareBy == ledger.ByHours, s.ShareBy == ledger.ByPieces, group == nil:
		return nil
	}
	var sqFt *big.Rat
	switch {
	case container.Unit.Kind == measure.Volume:
		sqFt = perUnit(group.SqFtPerFlOz, "fl oz")
	case container.Unit.Kind == measure.Mass:
		sqFt = perUnit(group.SqFtPerOz, "oz")
	case slices.Contains([]string{"each", "sheet", "disc", "pad"}, container.Unit.Name):
		sqFt = perUnit(group.SqFtPerUnit, "")
	}
	if sqFt != nil && r.settings.Metric() {
		sqFt.Mul(sqFt, measure.SqFtInSqM())
	}
	return sqFt
}

// measured is a number with a unit beside it in containers of a supply, also
// negative; a unit that only counts (cans) is the container where that is filled
// by volume, weight or length.
func (rec *record) measured(field string, s *ledger.Supply) *big.Rat {
	a, ok := rows.Figure(rec.Row, field, values.Amount)
	switch {
	case !ok || s == nil:
		return nil
	case a.Bare, a.Unit.Kind == measure.Count && unitOf(*s).Kind != measure.Count:
		return a.Value
	}
	x, refusal := a.InContainers(s.Size, unitOf(*s))
	if refusal != nil {
		rec.Refusal(field, refusal)
		return nil
	}
	return x
}

// supplyOf is the supply a row names; nil where it names none that was read.
func (r *reading) supplyOf(rec *record, field string) *ledger.Supply {
	o := rec.supply(field)
	if o == nil {
		return nil
	}
	for i := range r.books.Supplies {
		if r.books.Supplies[i].Name == o.name {
			return &r.books.Supplies[i]
		}
	}
	return nil
}

// amountOf reads an amount of a supply in containers; without the supply only
// its being there is checked.
func (rec *record) amountOf(field string, s *ledger.Supply, zero bool) *big.Rat {
	if s == nil {
		rec.Words(field)
		return nil
	}
	return rec.Amount(field, s.Size, unitOf(*s), zero)
}

// isBare says that an amount is a number without a unit.
func (rec *record) isBare(field string) bool {
	a, refusal := values.Amount(rec.Cell(field), rec.r.settings)
	return refusal == nil && a.Bare
}

// purchaseRow brings a line's containers to those of the supply's usual size,
// and holds signs together: what is taken back is negative throughout.
func (r *reading) purchaseRow(rec *record) ledger.Purchase {
	s := r.boughtOf(rec)
	rec.unitInContainers(s)
	p := ledger.Purchase{At: rec.At, On: rec.Date("bought_on"), Amount: r.howMany(rec, s),
		Cost:    rec.SignedMoney("cost"),
		TaxPaid: rec.SignedMoney("tax_paid"), From: rec.Words("from"), Receipt: rec.Words("receipt")}
	if s != nil {
		p.Supply = s.Name
	}
	sign := 0
	if p.Amount != nil {
		if sign = p.Amount.Sign(); sign == 0 {
			rec.Fail("containers", fault.CodeNumberOutOfRange, "0 containers are neither bought nor taken back.",
				"Type how many, negative where they were taken back.")
		}
	}
	if (sign > 0 && (p.Cost < 0 || p.TaxPaid < 0)) || (sign < 0 && (p.Cost > 0 || p.TaxPaid > 0)) {
		field := "cost"
		if p.Cost == 0 || (p.Cost > 0) == (sign > 0) {
			field = "tax_paid"
		}
		rec.Fail(field, fault.CodeTakenBackSigns, "Containers and money differ in sign.",
			"Type both above 0 where something was bought, both below 0 where it was taken back.")
	}
	if !rec.Filled("container") {
		if s != nil {
			rec.noteLikeUnits(p.Amount, *s, p.Total())
		}
		return p
	}
	if own, ok := rec.Container("container"); ok && s != nil {
		size, refusal := own.InContainers(s.Size, unitOf(*s))
		if refusal != nil {
			rec.Refusal("container", refusal)
		} else if p.Amount != nil {
			p.Amount.Mul(p.Amount, size)
			p.Holds = size
		}
	}
	return p
}

// unitInContainers refuses an amount with a unit where containers are counted:
// 32 oz are no 32 containers.
func (rec *record) unitInContainers(s *ledger.Supply) {
	a, refusal := values.Amount(rec.Cell("containers"), rec.r.settings)
	if _, measured := rec.Block.Units["containers"]; measured || refusal != nil || a.Bare {
		return
	}
	fix := "Type how many were bought, such as 1; what one holds belongs in the column container."
	if s != nil && s.Size != nil {
		if n, other := a.InContainers(s.Size, unitOf(*s)); other == nil {
			fix = fmt.Sprintf("A container of %s holds %s %s, so for this much type %s. If these were containers of another "+
				"size, type how many, and what one holds in the column container.",
				s.Name, money.AtMost(s.Size, 4), unitOf(*s).Plural(s.Size), values.Written(n, rec.r.settings))
		}
	}
	rec.Fail("containers", fault.CodeNumberNotRead, "This column counts containers, and here is an amount with a unit.",
		fix)
}

// likeUnitsLeast is from how many units in a container on a number of
// containers that equals them is doubted.
const likeUnitsLeast = 5

// noteLikeUnits notes as many containers as there are units in one: 25 packs of
// 25 sheets, where one pack was meant most likely. It could move the line.
func (rec *record) noteLikeUnits(n *big.Rat, s ledger.Supply, cost money.Cents) {
	if n == nil || s.Size == nil || unitOf(s).Kind != measure.Count || s.Size.Cmp(big.NewRat(likeUnitsLeast, 1)) < 0 ||
		n.Cmp(s.Size) != 0 {
		return
	}
	unit := unitOf(s).Plural(big.NewRat(2, 1))
	rec.Note("containers", fault.CodeContainersLikeUnits, int64(cost.Abs()),
		fmt.Sprintf("A container of %s holds %s %s, so %s containers are %s %s.", s.Name, money.AtMost(s.Size, 4), unit,
			money.AtMost(n, 4), money.AtMost(new(big.Rat).Mul(n, s.Size), 4), unit),
		fmt.Sprintf("If %s %s were bought, type 1; otherwise leave it.", money.AtMost(n, 4), unit))
}

func (r *reading) openingRow(rec *record) ledger.Opening {
	o := ledger.Opening{At: rec.At, On: rec.Date("on"), Cost: rec.Money("cost")}
	s := r.supplyOf(rec, "supply")
	if s != nil {
		o.Supply = s.Name
	}
	o.Amount = rec.amountOf("amount", s, false)
	o.Deducted, _ = rec.YesNo("deducted")
	return o
}

func (r *reading) countRow(rec *record) ledger.Count {
	c := ledger.Count{At: rec.At, On: rec.Date("counted_on")}
	s := r.supplyOf(rec, "supply")
	if s != nil {
		c.Supply = s.Name
	}
	c.Left, c.Bare = rec.amountOf("left", s, true), rec.isBare("left")
	c.Discarded = rec.amountOf("discarded", s, true)
	return c
}

// buildSchedules reads Schedules. A schedule with a refused line is refused:
// its uses would leave that supply out silently.
func (r *reading) buildSchedules() {
	for _, rec := range r.tables["schedules"] {
		name := rec.Raw("schedule")
		if name == "" {
			continue
		}
		o := r.names.schedules[values.Fold(name)]
		if o == nil {
			o = &owner{what: "schedule", name: name, at: rec.At}
			r.names.schedules[values.Fold(name)] = o
		}
		o.name = min(o.name, name)
	}
	r.books.Schedules = each(r, "schedules", func(rec *record) ledger.ScheduleLine {
		l := ledger.ScheduleLine{At: rec.At, Coats: rec.NumberOrOne("coats")}
		if name, ok := rec.Text("schedule"); ok {
			l.Schedule = r.names.schedules[values.Fold(name)].name
		}
		if s := r.supplyOf(rec, "supply"); s != nil {
			l.Supply = s.Name
		}
		return l
	})
	for _, rec := range r.tables["schedules"] {
		if o := r.names.schedules[values.Fold(rec.Raw("schedule"))]; o != nil && rec.Refused && !o.refused {
			o.refused, o.at, o.rec = true, rec.At, rec
		}
	}
}

// buildUses reads Uses, a line that names a schedule becoming one use for
// each of the schedule's lines.
func (r *reading) buildUses() {
	areas := map[string]bool{}
	for _, p := range r.books.Pieces {
		areas[p.ID] = p.Area != nil
	}
	for _, uses := range each(r, "uses", func(rec *record) []ledger.Use { return r.useRow(rec, areas) }) {
		r.books.Uses = append(r.books.Uses, uses...)
	}
}

// useRow reads a row of Uses.
func (r *reading) useRow(rec *record, areas map[string]bool) []ledger.Use {
	u := ledger.Use{At: rec.At, On: rec.Date("used_on"), Pieces: rec.pieces("pieces"), Area: rec.Unitted("area",
		measure.ReadArea), Coats: rec.NumberOrOne("coats")}
	s := r.supplyOf(rec, "supply")
	schedule := rec.schedule("schedule")
	switch hasSupply, hasSchedule := rec.Filled("supply"), rec.Filled("schedule"); {
	case hasSupply && hasSchedule:
		rec.FailRow(fault.CodeSupplyOrSchedule, "This use names both a supply and a schedule.", "Leave one of the two blank.")
	case !hasSupply && !hasSchedule && !rec.Reported("supply") && !rec.Reported("schedule"):
		rec.FailRow(fault.CodeSupplyOrSchedule, "This use names neither a supply nor a schedule.", "Type one of the two.")
	case hasSchedule && rec.Filled("amount"):
		rec.Fail("amount", fault.CodeAmountWithSchedule, "A schedule has several supplies, so it is not clear which of them "+
			"the amount is of.", "Leave the amount blank, or write a line for each supply.")
	case hasSupply:
		u.Amount, u.Bare = rec.amountOf("amount", s, false), rec.isBare("amount")
	}
	if !rec.Filled("area") {
		for _, p := range u.Pieces {
			if has, known := areas[p]; known && !has {
				why, kinds := rec.r.areaUnknown(p)
				rec.failName("pieces", p, fault.CodeAreaMissing, why,
					"Type the area here or in Pieces, or measure the piece in Surfaces."+kinds)
			}
		}
	}
	if schedule == nil {
		if s != nil {
			u.Supply = s.Name
		}
		return []ledger.Use{u}
	}
	return r.bySchedule(u, schedule.name)
}

// bySchedule is a use of a schedule as one of each of its lines.
func (r *reading) bySchedule(u ledger.Use, schedule string) []ledger.Use {
	var uses []ledger.Use
	for _, l := range r.books.Schedules {
		if l.Schedule == schedule {
			one := u
			one.Supply, one.Schedule, one.Coats = l.Supply, schedule, new(big.Rat).Mul(u.Coats, l.Coats)
			uses = append(uses, one)
		}
	}
	return uses
}

// noteStartingCoverages notes each supply whose use can only be estimated by
// its group's usual figure. What it could move is all that was paid for it; where
// none was bought or there to begin with, there is nothing to estimate.
func (r *reading) noteStartingCoverages() {
	unmeasured := map[string]bool{}
	for _, u := range r.books.Uses {
		unmeasured[u.Supply] = unmeasured[u.Supply] || u.Amount == nil
	}
	paid, had := map[string]money.Cents{}, map[string]bool{}
	for _, p := range r.books.Purchases {
		paid[p.Supply] += p.Total()
		had[p.Supply] = true
	}
	for _, o := range r.books.Openings {
		had[o.Supply] = true
	}
	for _, rec := range r.tables["supplies"] {
		for _, s := range r.books.Supplies {
			if s.At != rec.At || !had[s.Name] || s.Coverage != nil || s.UseAll || s.Starting == nil ||
				!unmeasured[s.Name] && s.ShareBy == ledger.ByArea {
				continue
			}
			in := map[ledger.ShareBy]string{ledger.ByArea: r.settings.AreaUnit() + " once over",
				ledger.ByBench: r.settings.AreaUnit() + " on the bench", ledger.ByHours: "hours",
				ledger.ByPieces: "pieces"}[s.ShareBy]
			rec.Note("coverage", fault.CodeStartingCoverage, int64(paid[s.Name]),
				fmt.Sprintf("No coverage is stated, so until a count shows the shop's own, %s %s a container are "+
					"used, usual for %s.", money.AtMost(s.Starting, 2), in, s.Group),
				"Type what one container does, as its label says or as you know it, or count what is left.")
		}
	}
}
