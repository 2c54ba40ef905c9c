package intake_test

import (
	"maps"

	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

// together is two sets of files together.
func together(a, b map[string]string) map[string]string {
	all := maps.Clone(a)
	maps.Copy(all, b)
	return all
}

// columnCases are cases of columns, files and settings that mean something
// else than they seem to.
var columnCases = []problemCase{
	{fault.CodeCoveragePerUnit, file("supplies.csv", "supply,group,container,coverage\nPrimer,primer,1 qt,400 sq ft/gal\nStain,stain,750 ml,12 m²/l\nWax,wax,1 lb,400/gal\n")},
	{fault.CodeCoveragePerUnit,
		together(settings("units = \"metric\"\ndecimal_comma = true\n[columns.supplies]\n\"m²/l\" "+
			"= \"coverage\"\n"),
			file("supplies.csv", "supply;group;container;m²/l\nPrimer;primer;375 ml;12,5\n"))},
	{fault.CodeHeaderUnknown, file("supplies.csv", "supply,group,container,Sq ft per gal\nPrimer,primer,1 qt,400\n")},
	{fault.CodeHeaderUnknown, file("hours.csv", "worked_on,pieces,Hours,Minutes\n2026-01-09,P1,1,60\n")},
	{fault.CodeHoursNotRead, together(settings("[columns.hours]\n\"Minutes\" = \"hours\"\n"), file("hours.csv", "worked_on,pieces,Minutes\n2026-01-09,P1,60\n2026-01-09,P1,15 min\n2026-01-10,P1,90\n"))},
	{fault.CodeColumnMissing, file("hours.csv", "worked_on,pieces,Time (min)\n2026-01-09,P1,60\n")},
	{fault.CodeColumnMissing, file("purchases.csv", "bought_on,supply,containers,Unit price\n2026-01-09,Primer,2,20\n")},
	{fault.CodeColumnMissing, file("sales.csv", "sold_on,pieces,channel,Total paid,Tax\n2026-02-01,P1,market,107,7\n")},
	{fault.CodeColumnMissing, pieces("piece,What is it,got_on,price,area", "P1,Oak dresser,2026-01-05,40,30")},
	{fault.CodeColumnTwice, pieces("piece,kind,got_on,Cost,Price,area", "P1,dresser,2026-01-05,40,250,30")},
	{fault.CodeColumnTwice, file("purchases.csv", "Date,Supply,Qty,Price,Total\n2026-01-09,Primer,3,20,60\n")},
	{fault.CodeHeaderUnknown, pieces("piece,kind,got_on,price,area,Materials,Gas,Net,Fee %", "P1,dresser,2026-01-05,40,30,12.50,$8,20,10")},
	{fault.CodeMoneyDecimals, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,1.250\n2026-01-10,vise,0.500\n")},
	{fault.CodeMoneyNotRead, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,1.2k\n2026-01-10,vise,3 in\n")},
	{fault.CodeMoneyNegative, file("sales.csv", "sold_on,pieces,channel,price\n2026-02-01,P1,market,-100\n")},
	{fault.CodeNumberNotRead, file("purchases.csv", "bought_on,supply,containers,cost\n2026-01-09,Primer,32 fl oz,20\n2026-01-10,Primer,12 oz,20\n")},
	{fault.CodeDeliveryEither, file("sales.csv", "sold_on,pieces,channel,price,Delivery\n2026-02-01,P1,market,90,\n2026-02-02,P2,market,30,12.50\n")},
	{fault.CodeForPiece, file("receipts.csv", "Date,Store,Item,For,Amount\n2026-01-09,shop,knobs,P1,9.00\n2026-01-09,shop,sandpaper,shelf,4.00\n")},
	{fault.CodeUnitBeside, file("purchases.csv", "bought_on,supply,containers,Unit,cost\n2026-01-09,Primer,2,qt,20\n2026-01-10,Primer,3,tubs,20\n2026-01-11,Primer,3,lb,20\n")},
	{fault.CodeQuantityUnread, file("sales.csv", "sold_on,pieces,channel,Qty,price\n2026-02-01,P1,market,1,90\n2026-02-02,P2,market,2,30\n")},
	{fault.CodeQuantityUnread, file("purchases.csv", "Date,Supply,Qty,Price\n2026-01-09,Primer,3,20\n")},
	{fault.CodeTaxEither, pieces("piece,kind,got_on,price,area,sold_on,sold_price,Tax", "P1,dresser,2026-01-05,40,30,2026-02-01,200,14")},
	{fault.CodeDateEitherWay, file("hours.csv", "worked_on,pieces,hours\n3.2.2026,P1,1\n4.2.2026,P1,2\n")},
	{fault.CodeCurrencyOther, file("purchases.csv", "bought_on,supply,containers,cost\n2026-01-09,Paper,1,€19.00\n")},
	{fault.CodeUnitsMetric, file("supplies.csv", "supply,group,container,coverage\nPrimer,primer,750 ml,9\nWax,wax,500 g,20\n")},
	{fault.CodeScheduleNotCounted, withNamedUse("Wax")},
	{fault.CodeHoursTwice,
		map[string]string{"records/pieces.csv": "piece,kind,got_on,price,area,hours\nP1,dresser,2026-01-05,40,30,6\n",
			"records/hours.csv": "worked_on,No,hours\n2026-01-09,P1,2\n2026-01-10,P1,4\n"}},
	{fault.CodeFilesBeside, map[string]string{"expenses.csv": "paid_on,what,group,amount\n", "Shop photo.jpg": "x"}},
	{fault.CodeFilesBeside, map[string]string{"records/pieces.csv": "", "records/supplies.csv": "",
		"pieces.csv":        base["records/pieces.csv"],
		"2026/expenses.csv": "x", "reports/2026-01/ledger.csv": "x", "closed/2025-12.csv": "x"}},
	{fault.CodeOwnReport, file("reports/2026-01/uses.csv", "x")},
	{fault.CodeOwnReport, file("month.xlsx", workbook("Hours", func(f *excelize.File) {
		row(f, 1, "worked_on", "hours")
		row(f, 2, "2026-01-09", 1)
		_ = f.SetAppProps(&excelize.AppProperties{Application: "piecebook"})
	}))},
	{fault.CodeSettingUnused, together(settings("[sheets]\n\"Stuff sold\" = \"sales\"\n\"Time\" = \"hours\"\n[columns.pieces]\n\"Zed\" = \"hours\"\n\"Kind\" = \"kind\"\n"), file("time 2026.csv", "worked_on,hours\n2026-01-09,1\n"))},
	{fault.CodeSettingUnknown, settings("[sheets]\n\"Piece\" = \"pieces\"\ndecimal_comma = true\ndates = \"dmy\"\n")},
	{fault.CodeSettingUnknown, settings("[columns.pieces]\nunits = \"metric\"\nshop = \"from\"\n[vehicle]\nin_service = \"2024-05-01\"\ncurrency = \"EUR\"\n")},
	{fault.CodeSettingsNotRead, settings("shop = \"A\"\ndates = “dmy”\n")},
	{fault.CodeSettingsNotRead, map[string]string{"settings.toml.txt": "dates = \"dmy\"\n", "Settings.TOML": "dates = \"dmy\"\n"}},
	{fault.CodeNoHeader, file("hours.csv", "Wann,Was,Wie lange\n2026-01-09,x,2\n")},
	{fault.CodeCellMissing, pieces("piece,kind,price,area", "P1,dresser,40,30\nP2,chair,15,12")},
	{fault.CodeMoneyDecimals, file("equipment.xlsx", workbook("Equipment", func(f *excelize.File) {
		row(f, 1, "bought_on", "what", "cost")
		row(f, 2, "2026-01-09", "saw", 10.125)
		row(f, 3, "2026-01-09", "vise", 20.0625)
		_ = f.SetCellFormula("Equipment", "C2", "81/8")
		_ = f.SetCellFormula("Equipment", "C3", "321/16")
	}))},
	{fault.CodeSheetSkipped, file("flips.xlsx", workbook("FLIPS 2026", func(f *excelize.File) { row(f, 1, "a", "b") }))},
}
