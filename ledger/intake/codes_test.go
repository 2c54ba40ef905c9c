package intake_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

var update = flag.Bool("update", false, "write the golden files again")

// problemCase is a tiny books folder that raises one code. Files replace the
// base's or stand beside them; an empty one takes the base's away.
type problemCase struct {
	code  fault.Code
	files map[string]string
}

var problemCases = []problemCase{
	{fault.CodeNoRecords, map[string]string{"records/pieces.csv": "", "records/supplies.csv": ""}},
	{fault.CodeNoRecords, map[string]string{"records/pieces.csv": "", "records/supplies.csv": "", "records/My flips.csv": "Item #,Type,Bought,Paid\n1,Chair,1/5/2026,40\n"}},
	{fault.CodeFileNotRead, file("book.xlsx", "half a file")},
	{fault.CodeFileNotRead, file("old.xls", "x")},
	{fault.CodeFileNotRead, file("sales.csv", "PK\x03\x04")},
	{fault.CodeFileNotRead, file("sales.xlsx", "\xD0\xCF\x11\xE0....")},
	{fault.CodeFileNotRead, file("sales.csv", "a\x00b\x00")},
	{fault.CodeFileNotRead, file("sales.csv", "\xff\xfea\x00b")},
	{fault.CodeFileNotRead, file("sales.csv", "<!DOCTYPE html><table>")},
	{fault.CodeFileNotRead, file("sales.xlsx", "<?xml version=\"1.0\"?><Workbook/>")},
	{fault.CodeFileNotRead, file("sales.xlsx", "%PDF-1.7")},
	{fault.CodeFileSkipped, file("notes.txt", "x")},
	{fault.CodeFileCopy, map[string]string{"records/pieces (2).csv": "Kind,Piece,got_on,price,area,Colour\nchair,P2,2026-01-06,15,12,red\ndresser,P1,2026-01-05,40,30,\n"}},
	{fault.CodeFileCopy, map[string]string{"records/hours.csv": "worked_on,hours\n" + hoursRows(9), "records/hours 2.csv": "worked_on,hours\n" + hoursRows(8)}},
	{fault.CodeFileTooBig, file("hours.csv", "worked_on,hours\n"+strings.Repeat("2026-01-09,1\n", 200_001))},
	{fault.CodeLettersGuessed, file("trips.csv", "on,miles,purpose\n2026-01-09,5,caf\xe9\n")},
	{fault.CodeSheetSkipped, file("sails-2026.csv", "sold_on,price\n2026-01-09,5\n2026-01-10,5\n")},
	{fault.CodeSheetFitsOther, nothing(file("sold.csv", "Item,Type,Bought,Cost,Sold date,Sold price,Fees\nD1,dresser,2026-01-03,20,2026-02-02,180,9\n"))},
	{fault.CodeMoneyNegative, file("sales.csv", "sold_on,pieces,price,fee\n2026-02-02,P1,180,-9\n")},
	{fault.CodeMoneyNegative, file("sales.csv", "sold_on,pieces,price,fee\n2026-02-02,P1,180,- $9\n2026-02-03,P1,80,- $4.50\n2026-02-04,P1,80,-4\n")},
	{fault.CodeColumnMissing, file("expenses.csv", "Date,What,Amount\n2026-02-02,Booth rent March,50\n2026-02-03,Business cards,20\n2026-02-05,Booth rent April,50\n")},
	{fault.CodeCurrencyOther, file("equipment.csv", "bought_on,what,cost\n2026-02-02,saw,$50\n2026-02-03,lamp,£20\n2026-02-04,bench,30 CAD\n")},
	{fault.CodeHeaderUnknown, file("sales.csv", "sold_on,pieces,price,Currency,Commission rate\n2026-02-02,P1,180,USD,13%\n2026-02-03,P1,80,CAD,10%\n")},
	{fault.CodeSaleUndone, file("sales.csv", "sold_on,pieces,price,Returned,Status\n2026-02-02,P1,180,2026-02-09,\n2026-02-12,P1,180,yes,\n2026-02-22,P1,180,no,hold til paid\n2026-02-23,P1,180,,sold\n")},
	{fault.CodeTotalsRow, file("trips.csv", "on,miles,purpose\n2026-02-02,20,pick up\n2026-02-03,12,deliver\n2026-02-28,32,total for February\n")},
	{fault.CodeSheetSkipped, file("register.csv", "Day,Said,Money in,Money out\n2026-01-03,dresser,,20\n2026-02-02,sold,180,\n")},
	{fault.CodeColumnTwice, nothing(file("pieces.csv", "Piece,Kind,Bought,Paid,Sold on,Got\nD1,dresser,2026-03-01,30,2026-03-20,100\n"))},
	{fault.CodeColumnTwice, nothing(file("pieces.csv", "Piece,Kind,Bought,Paid,Sold,Sold\nD1,dresser,2026-03-01,30,2026-03-20,100\n"))},
	{fault.CodeColumnTwice, nothing(file("pieces.csv", "Piece,Kind,Bought,Paid,Sold on,Sold price,Got\nD1,dresser,2026-03-01,30,2026-03-20,100,7\n"))},
	{fault.CodeColumnTwice, file("purchases.csv", "bought on,supply,amount,cost\n2026-01-05,Satin,1,20\n")},
	{fault.CodeColumnMeaning, nothing(file("pieces.csv", "Piece,Kind,Bought,Cost,Sold on,Sold at\nD1,dresser,2026-03-01,30,2026-03-20,150\nC1,chair,2026-03-02,5,2026-03-21,35\nC2,chair,2026-03-02,5,2026-03-22,45\n"))},
	{fault.CodeHeaderUnknown, nothing(file("pieces.csv", "Piece,Kind,Bought,Cost,Where\nD1,dresser,2026-03-01,30,market\n"))},
	{fault.CodeColumnMissing, file("hours.csv", "Day,P1,P2\n2026-01-09,1,2\n")},
	{fault.CodeSheetSkipped, file("My flips.csv", "Item #,Type,Bought,Paid,Sold,Sold for,Fees,Hrs\n1,Chair,1/5/2026,40,2/1/2026,90,9,3\n")},
	{fault.CodeSheetSkipped, file("Notes to self.csv", "Buy more rags\n")},
	{fault.CodeNoHeader, file("hours.csv", "My hours,,\n2026-01-09,2\n")},
	{fault.CodeStrayQuote, file("hours.csv", "worked_on,hours,task\n2026-01-09,1,\"a\"b\n2026-01-09,2,c\n")},
	{fault.CodeQuoteNotClosed, file("hours.csv", "worked_on,hours,task\n2026-01-09,1,\"a\n2026-01-09,2,\"c\"\n")},
	{fault.CodeQuoteNotClosed, file("hours.csv", "worked_on,hours,task\n2026-01-09,1,\"a\n2026-01-09,2,c\n")},
	{fault.CodeColumnMissing, file("hours.csv", "worked_on,task\n2026-01-09,c\n")},
	{fault.CodeHoursOfDay, file("hours.csv", "worked_on,hours\n2026-01-09,0.104166\n2026-01-10,1\n")},
	{fault.CodeHoursOfDay, file("hours.csv", "worked_on,hours\n2026-01-09,0.083333\n2026-01-10,1\n")},
	{fault.CodeNumberEitherWay, file("trips.csv", "on,miles,purpose\n2026-01-09,\"33,740\",market\n")},
	{fault.CodeRowTooLong, file("parts.csv", "bought_on,pieces,what,cost,tax_paid\n2026-01-09,P1,knobs, brass,8,\n"+
		"2026-01-09,P1,hinges,4,\n2026-01-10,P2,glides,3,0.20\n")},
	{fault.CodeFileNotRead, file("uses.csv", "\n \n")},
	{fault.CodeHeaderBlank, file("parts.csv", "bought_on,pieces,what,cost,,receipt\n2026-01-09,P1,knobs,8,4.50,R1\n")},
	{fault.CodeColumnTwice, file("hours.csv", "date,day,hours\n2026-01-09,2026-01-09,1\n")},
	{fault.CodeColumnTwice, pieces("No,Item,type,bought,paid,sq ft", "1,Oak desk,desk,1/5/2026,40,33")},
	{fault.CodeColumnMissing, file("hours.csv", "worked_on,Labor\n2026-01-09,2:30\n2026-01-10,1\n")},
	{fault.CodeColumnMissing, map[string]string{"records/pieces.csv": "Item #,Bought,Paid,Style\nP1,1/5/2026,40,Tall " +
		"boy\nP2,1/6/2026,15,Rocker\n",
		"records/hours.csv": "worked_on,pieces,hours\n2026-01-09,P1,1\n2026-01-09,P2,1\n2026-01-10,P9,1\n"}},
	{fault.CodeColumnMeaning, file("sales.csv", "item,sold,where sold\nP1,120,market\nP1,90,market\nP2,110.50,market\n")},
	{fault.CodeTicksAsked, pieces("item,type,bought,paid,sold", "P1,dresser,1/5/2026,40,yes\nP2,chair,1/6/2026,15,no\nP3,chair,1/6/2026,15,yes\nP4,chair,1/6/2026,15,")},
	{fault.CodeHeaderUnknown, pieces("item,type,bought,paid,sq ft,What is it,Notes", "P1,desk,1/5/2026,40,33,oak,needs a leg")},
	{fault.CodeHeaderUnknown, file("hours.csv", "worked_on,hours,Weather\n2026-01-09,1,wet\n")},
	{fault.CodeHeaderUnknown, file("hours.csv", "worked_on,hours,piecs\n2026-01-09,1,P1\n")},
	{fault.CodeTotalsRow, file("hours.csv", "worked_on,hours,task\n2026-01-09,1,x\nTotal for January:,1,\n")},
	{fault.CodeHeaderAgain, file("hours.csv", "worked_on,hours,task\n2026-01-09,1,x\nWorked_on,Hours,\n2026-02-09,1,x\n")},
	{fault.CodeHeadingRow, file("hours.csv", "worked_on,hours,task\nJanuary 2026,,\n2026-01-09,1,x\n")},
	{fault.CodeRowBarelyFilled, file("hours.csv", "worked_on,hours,task\nWorkshop time,,\n2026-01-09,1,x\n")},
	{fault.CodeRowTooLong, file("trips.csv", "on,purpose,tolls,miles\n2026-01-09,sale,1,234.50,8\n")},
	{fault.CodeHeaderBlank, file("trips.csv", "on,purpose,,miles\n2026-01-09,sale,x,8\n")},
	{fault.CodeDistanceUnit, file("trips.csv", "on,purpose,km\n2026-01-09,sale,8\n")},
	{fault.CodeTitleRows, file("hours.csv", "My shop,,\n\nHours of 2026,,\nworked_on,hours,task\n2026-01-09,2,x\n")},
	{fault.CodeTitleRows, file("hours.csv", "worked_on,What was done,,,\n,pieces,hours,task,\n2026-01-09,P1,2,x,\n")},
	{fault.CodeHiddenRead, file("hours.xlsx", workbook("Hours", func(f *excelize.File) {
		row(f, 1, "worked_on", "hours", "task")
		row(f, 2, "2026-01-09", 1, "x")
		row(f, 3, "2026-01-10", 1, "x")
		_ = f.SetRowVisible("Hours", 3, false)
		_ = f.SetColVisible("Hours", "C", false)
	}))},
	{fault.CodeMergedCells, file("hours.xlsx", workbook("Hours", func(f *excelize.File) {
		row(f, 1, "worked_on", "hours", "pieces")
		row(f, 2, "2026-01-09", 1, "P1")
		row(f, 3, "2026-01-10", 1)
		_ = f.MergeCell("Hours", "C2", "C3")
	}))},
	{fault.CodeDistanceAssumed, map[string]string{"settings.toml": "units = \"metric\"", "records/trips.csv": "on,purpose,miles\n2026-01-09,sale,8\n"}},

	{fault.CodeSettingsNotRead, settings("shop = \"A\"\nunits = metric\n")},
	{fault.CodeSettingsNotRead, settings("shop = Second Coat\n")},
	{fault.CodeSettingsNotRead, settings("units = \"us\"\ntarget_hourly = $25\n")},
	{fault.CodeSettingsNotRead, settings("target_hourly = 25,50 # an hour\n")},
	{fault.CodeSettingsNotRead, settings("shop: \"Second Coat\n")},
	{fault.CodeSettingsNotRead, settings("my settings\n")},
	{fault.CodeSettingsNotRead, settings("shop = \"A\nunits = \"us\"\n")},
	{fault.CodeSettingsNotRead, settings("[sheets]\n\"A\" = \"sales\"\n\n[sheets]\n\"B\" = \"hours\"\n")},
	{fault.CodeSettingUnknown, settings("shop = \"A\"\ncurency = \"USD\"\n[sheets]\n\"Stuff sold\" = \"saless\"\n[columns.sales]\n\"Amt\" = \"prise\"\nprice = \"Got\"\n")},
	{fault.CodeSettingValue, settings("units = \"imperial\"\ntarget_hourly = 25.005\ndecimal_comma = \"yes\"\ncurrency = \"dollars\"\n[mileage]\n\"2026-13-01\" = 0.7\n")},

	{fault.CodeCellMissing, file("hours.csv", "worked_on,hours\n,1\n")},
	{fault.CodeCellError, file("hours.csv", "worked_on,hours\n2026-01-09,#REF!\n")},
	{fault.CodeCellError, file("hours.csv", "worked_on,hours,task\n2026-01-09,Err:502,#¡VALOR!\n")},
	{fault.CodeCellNarrow, file("hours.csv", "worked_on,hours\n########,1\n")},
	{fault.CodeCellTooLong, file("hours.csv", "worked_on,hours,task\n2026-01-09,1,"+strings.Repeat("sanding the top ", 3000)+"\n")},
	{fault.CodeFormulaNoValue, file("hours.xlsx", workbook("Hours", func(f *excelize.File) {
		row(f, 1, "worked_on", "pieces", "hours", "task")
		row(f, 2, "2026-01-09", "P1", nil, "x")
		_ = f.SetCellFormula("Hours", "C2", "1+1")
	}))},
	{fault.CodeFormulaNoValue, file("hours.xlsx", workbook("Hours", func(f *excelize.File) {
		row(f, 1, "worked_on", "pieces", "hours", "task")
		row(f, 2, nil, nil, nil, "x")
		_ = f.SetCellFormula("Hours", "A2", "TODAY()")
		_ = f.SetCellFormula("Hours", "C2", "1+1")
	}))},
	{fault.CodeDateNotRead, file("hours.csv", "worked_on,hours\nlast week,1\n")},
	{fault.CodeDateNotRead, file("hours.csv", "worked_on,hours\n3/1,1\nMar 2026,1\n2026-01-09,1\n")},
	{fault.CodeDateNoSuchDay, file("hours.csv", "worked_on,hours\n2026-02-30,1\n")},
	{fault.CodeDateOtherOrder, file("hours.csv", "worked_on,hours\n13/2/2026,1\n2/3/2026,1\n14/2/2026,1\n")},
	{fault.CodeDateOtherOrder, file("hours.csv", "worked_on,hours\n13/2/2026,1\n2/14/2026,1\n")},
	{fault.CodeDateOtherOrder, map[string]string{"settings.toml": "dates = \"dmy\"", "records/hours.csv": "worked_on,hours\n2/13/2026,1\n"}},
	{fault.CodeDateYearOnly, file("hours.csv", "worked_on,hours\n2026,1\n")},
	{fault.CodeDateYearDigits, file("hours.csv", "worked_on,hours\n10/4/62,1\n4 Mar 99,1\n10/4/49,1\n")},
	{fault.CodeDateFarOff, file("hours.csv", "worked_on,hours\n1026-01-09,1\n")},
	{fault.CodeDateIsNumber, file("hours.csv", "worked_on,hours\n46031,1\n46032,1\n46033,1\n")},
	{fault.CodeYearNotRead, file("statements.csv", "year,channel,gross\n26,market,100\n")},
	{fault.CodeMoneyNotRead, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,about 50\n")},
	{fault.CodeMoneyNotRead, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,20 + tax\n2026-01-10,saw,free\n2026-01-11,saw,~20\n2026-01-12,saw,$20.00 cash\n2026-01-13,saw,20-25\n2026-01-14,saw,n/a\n2026-01-15,saw,-\n2026-01-16,saw,?\n2026-01-17,saw,3/9/2026\n2026-01-18,saw,15+5\n")},
	{fault.CodeMoneyDecimals, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,50.125\n")},
	{fault.CodeMoneyTooLarge, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,12345678901234\n")},
	{fault.CodeMoneyNegative, file("equipment.csv", "bought_on,what,cost\n2026-01-09,saw,-50\n")},
	{fault.CodeDecimalMark, file("equipment.csv", "bought_on;what;cost\n2026-01-09;saw;50,5\n")},
	{fault.CodeDecimalMark, file("equipment.csv", "bought_on;what;cost;tax_paid\n2026-01-09;saw;50,5;3,00\n2026-01-10;vise;1.050,50;\n")},
	{fault.CodeNumberNotRead, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,two,\n2026-01-10,P1,Primer,,,2 coats,\n")},
	{fault.CodeNumberNotRead, file("trips.csv", "on,purpose,miles\n2026-01-09,sale,far\n")},
	{fault.CodeNumberNotFinite, file("trips.csv", "on,purpose,miles\n2026-01-09,sale,NaN\n")},
	{fault.CodeNumberExponent, file("trips.csv", "on,purpose,miles\n2026-01-09,sale,1e9\n")},
	{fault.CodeNumberIsDate, file("uses.xlsx", workbook("Uses", func(f *excelize.File) {
		row(f, 1, "used_on", "pieces", "supply", "amount")
		row(f, 2, "2026-01-09", "P1", "Primer", 46024)
		style, _ := f.NewStyle(&excelize.Style{NumFmt: 16})
		_ = f.SetCellStyle("Uses", "D2", "D2", style)
	}))},
	{fault.CodeNumberIsDate, file("hours.xlsx", workbook("Hours", func(f *excelize.File) {
		row(f, 1, "worked_on", "hours")
		row(f, 2, "2026-01-09", 46024)
		style, _ := f.NewStyle(&excelize.Style{NumFmt: 16})
		_ = f.SetCellStyle("Hours", "B2", "B2", style)
	}))},
	{fault.CodeNumberIsDate, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,2-Jan\n")},
	{fault.CodeNumberOutOfRange, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,0,\n")},
	{fault.CodeLengthNotRead, file("surfaces.csv", "piece,part,shape,width,height\nP1,top,rectangle,wide,18\"\n")},
	{fault.CodeAmountNotRead, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,some\n")},
	{fault.CodeAmountNotRead, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,quart\n2026-01-10,P1,Primer,,,,half a pint\n")},
	{fault.CodeAmountRange, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,-1\n")},
	{fault.CodeUnitUnknown, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,3 quats\n")},
	{fault.CodeUnitUnknown, file("uses.csv", usesHead+"2026-01-09,P1,Paper,,,,3 sheets of 220\n2026-01-10,P1,Primer,,,,1 tin\n2026-01-11,P1,Primer,,,,1 blob\n")},
	{fault.CodeUnitMissing, file("supplies.csv", "supply,group,container\nPrimer,primer,1\n")},
	{fault.CodeUnitOtherKind, file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,3 sheets\n")},
	{fault.CodeUnitOtherKind,
		map[string]string{"records/supplies.csv": "supply,group,container,coverage\nPrimer,primer,1 " +
			"qt,100\nStain,stain,1 pt,100\nSpray,topcoat,12 oz,20\n",
			"records/uses.csv": usesHead + "2026-01-09,P1,Primer,,,,16 oz\n2026-01-09,P1,Stain,,,,2.5 oz\n2026-01-09,P1,Spray,,,,4 fl oz\n2026-01-09,P1,Spray,,,,1/2 cup\n"}},
	{fault.CodeOuncesAsWeight, file("supplies.csv", "supply,group,container,coverage\nPrimer,primer,32 oz,100\nSpray,topcoat,12 oz,20\nWax,wax,16 oz,400\nStain,stain,16 fl oz,100\n")},
	{fault.CodeUnitNotShops, map[string]string{"records/uses.csv": usesHead + "2026-01-09,P1,Primer,,3.5 m2,,\n", "records/trips.csv": "on,miles,purpose\n2026-01-09,20 km,sale\n"}},
	{fault.CodeHoursNotRead, file("hours.csv", "worked_on,hours\n2026-01-09,2:75\n2026-01-10,9-11:30\n2026-01-11,10am to 2 pm\n2026-01-12,11:15 - 1\n2026-01-13,9-11\n2026-01-14,?\n")},
	{fault.CodeHoursTooMany, file("hours.csv", "worked_on,hours\n2026-01-09,25\n2026-01-09,90\n2026-01-09,2000\n")},
	{fault.CodeStrayQuote, file("hours.csv", "worked_on,hours,task\n\"\"\"\",1,x\n2026-01-09,1,\"a\"b\n")},
	{fault.CodeChoiceUnknown, file("supplies.csv", "supply,group,container\nPrimer,primmer,1 qt\n")},
	{fault.CodeChoiceUnknown, file("supplies.csv", "supply,group,container\nPrimer,varnish,1 qt\nPaper,,50 sheets\nHat,yogurt,1 each\n")},
	{fault.CodeYesNoNotRead, file("openings.csv", "on,supply,amount,cost,deducted\n2026-01-01,Primer,1,5.00,maybe\n")},
	{fault.CodeShapeMeasure, file("surfaces.csv", "piece,part,shape,Breadth,height\nP1,top,rectangle,,18\n")},

	{fault.CodePieceUnknown, file("hours.csv", "worked_on,pieces,hours\n2026-01-09,P1; P11,1\n")},
	{fault.CodePieceUnknown, map[string]string{"records/pieces.csv": "piece,kind,got_on,price,area\n007,dresser,2026-01-05,40,30\n", "records/hours.csv": "worked_on,pieces,hours\n2026-01-09,7,1\n"}},
	{fault.CodeNameIsNumber, pieces("piece,kind,got_on,price,area", "1.20E+04,chair,2026-01-05,5,9")},
	{fault.CodeNameLooksNumber, pieces("piece,kind,got_on,price,area", "1E5,chair,2026-01-05,5,9\n2-Jan,chair,2026-01-05,5,9")},
	{fault.CodePieceUnknown, file("hours.csv", "worked_on,pieces,hours\n2026-01-09,dresser,1\n2026-01-10,the old table,1\n")},
	{fault.CodePieceUnknown, map[string]string{"records/pieces.csv": "", "records/hours.csv": "worked_on,pieces,hours\n2026-01-09,P1,1\n2026-01-10,P2,1\n"}},
	{fault.CodeSupplyUnknown, file("uses.csv", usesHead+"2026-01-09,P1,Primmer,,,,\n")},
	{fault.CodeSupplyUnknown, file("uses.csv", usesHead+"2026-01-09,P1,Zinsser primer,,,,\n2026-01-09,P1,Paper 220,,,,\n2026-01-09,P1,Shellac,,,,\n")},
	{fault.CodePieceUnknown, map[string]string{"records/pieces.csv": "piece,kind,got_on,price,area\nP001,dresser,2026-01-05,40,30\nP003,chair,2026-01-05,40,12\n", "records/hours.csv": "worked_on,pieces,hours\n2026-01-09,P3,1\n2026-01-09,P-1,1\n2026-01-09,P7,1\n"}},
	{fault.CodePercentBelowOne, file("channels.csv", "channel,fee_percent,card_percent\nBooth,0.12,2.9\nFair,0.5%,0\n")},
	{fault.CodeLotUnknown, pieces("piece,kind,lot", "P1,chair,L9")},
	{fault.CodeScheduleUnknown, file("uses.csv", usesHead+"2026-01-09,P1,,Paint,,,\n")},
	{fault.CodeScheduleUnknown, pieces("piece,kind,got_on,price,schedule,condition", "P1,dresser,2026-01-05,40,Paint,shabby")},
	{fault.CodeOnePieceOnly,
		map[string]string{"records/pieces.csv": "piece,kind,got_on,price,set\nP1,dresser,2026-01-05,40,Bedroom\n",
			"records/removals.csv": "removed_on,piece,why\n2026-02-01,bedroom,kept\n"}},
	{fault.CodeRefusedRow, map[string]string{"records/pieces.csv": "piece,kind,got_on,price\nP1,dresser,2026-01-05,4o\n",
		"records/hours.csv": "worked_on,pieces,hours\n2026-01-09,P1,1\n"}},
	{fault.CodeNameTwice, map[string]string{"records/pieces.csv": "piece,kind,got_on,price\nP1,dresser,2026-01-05,40\np1,chair,2026-01-05,40\n"}},
	{fault.CodeNameIsNumber, file("more pieces.xlsx", workbook("Pieces", func(f *excelize.File) {
		row(f, 1, "piece", "kind", "got_on", "price", "area")
		row(f, 2, 46361, "desk", "2026-01-09", 5, 33)
		style, _ := f.NewStyle(&excelize.Style{NumFmt: 16})
		_ = f.SetCellStyle("Pieces", "A2", "A2", style)
	}))},
	{fault.CodeKindNearlyKnown, pieces("piece,kind,got_on,price,area", "P1,Dreser,2026-01-05,40,30\nP2,hall tree,2026-01-05,40,30\nP3,hall tree,2026-01-05,40,30\nP4,hal tree,2026-01-05,40,30")},
	{fault.CodeChannelNearlyAlike, file("sales.csv", "sold_on,pieces,channel,price\n2026-02-01,P1,Markt,90\n2026-02-02,P2,market,90\n2026-02-03,P2,MARKET,90\n")},
	{fault.CodeContainersOne, file("purchases.csv", "bought_on,supply,cost\n2026-01-09,Paper,19.00\n2026-01-19,Paper,9.00\n")},
	{fault.CodeContainersLikeUnits, file("purchases.csv", "bought_on,supply,containers,cost\n2026-01-09,Paper,50,19.00\n")},
	{fault.CodeLotEmpty, file("lots.csv", "lot,got_on,price\nL1,2026-01-05,100\n")},

	{fault.CodePriceMissing, pieces("piece,kind,got_on", "P1,dresser,2026-01-05")},
	{fault.CodePriceOnFree, pieces("piece,kind,how,got_on,price", "P1,dresser,Client,2026-01-05,5")},
	{fault.CodePriceAndLot, map[string]string{"records/pieces.csv": "piece,kind,lot,price\nP1,dresser,L1,5\n", "records/lots.csv": "lot,got_on,price\nL1,2026-01-05,100\n"}},
	{fault.CodeLotDate, map[string]string{"records/pieces.csv": "piece,kind,lot,got_on\nP1,dresser,L1,2026-01-04\n", "records/lots.csv": "lot,got_on,price\nL1,2026-01-05,100\n"}},
	{fault.CodeSaleIncomplete, pieces("piece,kind,got_on,price,sold_on,sold_price", "P1,dresser,2026-01-05,40,2026-02-01,\nP2,chair,2026-01-05,40,,90")},
	{fault.CodeSoldOnBoth,
		map[string]string{
			"records/pieces.csv": "piece,kind,got_on,price,sold_on,sold_price\nP1,dresser,2026-01-05,40,2026-02-01,90\n",
			"records/sales.csv":  "sold_on,pieces,channel,price\n2026-02-01,P1,booth,90\n"}},
	{fault.CodeSupplyOrSchedule, file("uses.csv", usesHead+"2026-01-09,P1,,,,,\n")},
	{fault.CodeAmountWithSchedule, map[string]string{"records/uses.csv": usesHead + "2026-01-09,P1,,Paint,,,8 fl oz\n", "records/schedules.csv": "schedule,supply\nPaint,Primer\n"}},
	{fault.CodeTakenBackSigns, file("purchases.csv", "bought_on,supply,containers,cost\n2026-01-09,Primer,-1,5.00\n")},
	{fault.CodeAreaMissing, map[string]string{"records/pieces.csv": "piece,kind,got_on,price\nP1,pulpit,2026-01-05,40\n", "records/uses.csv": usesHead + "2026-01-09,P1,Primer,,,,\n"}},
	{fault.CodeSaleIncomplete, file("equipment.csv", "bought_on,what,cost,life,sold_on,sold_for\n2026-01-09,lathe,2450,first year,2026-02-09,\n2026-01-09,vise,45,,,20\n2026-01-09,saw,45,,2026-01-08,0\n")},
	{fault.CodeLifeMissing, file("equipment.csv", "bought_on,what,cost,tax_paid\n2026-01-09,lathe,2450,50.01\n")},
	{fault.CodeTypicalArea, pieces("piece,kind,got_on,price", "P1,Dresser,2026-01-05,40")},
	{fault.CodeStartingCoverage, map[string]string{"records/supplies.csv": "supply,group,container\nPrimer,primer,1 qt\n",
		"records/purchases.csv": "bought_on,supply,containers,cost\n2026-01-09,Primer,1,20.00\n", "records/uses.csv": usesHead + "2026-01-09,P1,Primer,,,,\n"}},
}

// hoursRows is a number of rows of Hours, each another day.
func hoursRows(n int) (rows string) {
	for i := range n {
		rows += fmt.Sprintf("2026-01-%02d,2\n", i+1)
	}
	return rows
}

// Goal: each code has a case that raises it, and its words and place are as
// agreed. Method: a golden file that a person can read through.
func TestEveryCodeHasItsCase(t *testing.T) {
	var got strings.Builder
	raised := map[fault.Code]bool{}
	for _, c := range slices.Concat(problemCases, columnCases, ownerCodes) {
		res := read(t, c.files)
		found := false
		fmt.Fprintf(&got, "== %s\n", c.code)
		for _, p := range res.Problems.All() {
			kind := "error"
			if p.Note {
				kind = "note"
			}
			found = found || p.Code == c.code
			fmt.Fprintf(&got, "%s %s: %s\n", kind, p.Code, p)
		}
		require.True(t, found, "%s is not raised", c.code)
		raised[c.code] = true
		for _, row := range res.Tally {
			require.Equal(t, row.Rows, row.Used+row.Refused+row.Examples+row.NotRecord+row.NotTable, "%v", row)
		}
	}
	for code := range fault.IntakeCodes {
		require.True(t, raised[code], "no case raises %s", code)
	}
	golden := "testdata/problems.golden"
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, string(want), got.String())
}

// Words that people who keep records should never see.
var unwanted = regexp.MustCompile(
	`(?i)\b(invalid|please|sorry|illegal|pars(e|ing)|null|regex|schema|nil|panic|struct|map\[|EOF)\b`)

func TestMessagesSpeakPlainly(t *testing.T) {
	for _, c := range slices.Concat(problemCases, columnCases, ownerCodes) {
		for _, p := range read(t, c.files).Problems.All() {
			require.NotRegexp(t, unwanted, p.Why+" "+p.Fix, p.Code)
			for _, sentence := range []string{p.Why, p.Fix} {
				require.Regexp(t, `[.]$`, sentence, p.Code)
			}
		}
	}
}

func TestCodesAreWellFormed(t *testing.T) {
	for _, code := range slices.Sorted(maps.Keys(fault.IntakeCodes)) {
		require.Regexp(t, `^[a-z]+(-[a-z]+)*$`, string(code))
		require.NotEmpty(t, fault.IntakeCodes[code])
	}
}

func TestBaseBooksAreClean(t *testing.T) {
	require.Empty(t, read(t, nil).Problems.All())
}
