package settings

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"piecebook/ledger/calendar"
	"piecebook/ledger/measure"
)

// takeVehicle takes in_service and the total miles of each year.
func takeVehicle(r *settingsReading, key string, value any) {
	table, isTable := value.(map[string]any)
	if !isTable {
		r.wrong(key, value, `Write [vehicle] and below it in_service = "2024-05-01" and a line for each year: "2026" = 14200.`)
	}
	for _, name := range slices.Sorted(maps.Keys(table)) {
		v := table[name]
		if r.below(name, "vehicle", v) {
			continue
		}
		if name == "in_service" {
			d, err := calendar.Parse(valueText(v))
			if err != nil {
				r.wrong(name, v, `Type the day in quotation marks: in_service = "2024-05-01".`)
			}
			r.s.InService = d
			continue
		}
		if y, err := strconv.Atoi(name); err != nil || len(name) != 4 || y < 1950 {
			r.unknown(name, name, "setting in [vehicle]", []string{"in_service"})
			continue
		}
		miles, refusal := measure.Number(valueText(v), measure.Style{})
		if refusal != nil || miles.Sign() < 0 {
			r.wrong(name, v, fmt.Sprintf(`Type the year's total distance: "%s" = 14200.`, name))
			continue
		}
		r.s.YearlyTotals[name] = miles
	}
}

// takeHome takes the square feet of the shop and of the home, and whether the
// shop is a building of its own.
func takeHome(r *settingsReading, key string, value any) {
	table, isTable := value.(map[string]any)
	if !isTable {
		r.wrong(key, value, "Write [home] and below it the square feet of the shop and of the home: shop_area = 240, "+
			"home_area = 1600, separate = false.")
	}
	for _, name := range slices.Sorted(maps.Keys(table)) {
		v := table[name]
		if r.below(name, "home", v) {
			continue
		}
		switch name {
		case "shop_area", "home_area":
			feet, refusal := measure.Number(valueText(v), measure.Style{})
			if refusal != nil || feet.Sign() <= 0 {
				r.wrong(name, v, fmt.Sprintf("Type the square feet: %s = 240.", name))
			} else if name == "shop_area" {
				r.s.Home.Shop = feet
			} else {
				r.s.Home.Whole = feet
			}
		case "separate":
			yes, is := v.(bool)
			if !is {
				r.wrong(name, v, "Type separate = true or separate = false.")
			}
			r.s.Home.Separate = yes
		default:
			r.unknown(name, name, "setting in [home]", []string{"shop_area", "home_area", "separate"})
		}
	}
	if h := r.s.Home; h.Shop != nil && h.Whole != nil && !h.Separate && h.Shop.Cmp(h.Whole) > 0 {
		r.wrong("shop_area", table["shop_area"], "The shop cannot be larger than the home it is in. Type its "+
			"square feet, or "+
			"separate = true where it is a building of its own.")
		r.s.Home.Shop = nil
	}
}
