package fault

// The codes of reading: what can be wrong with a file, a sheet, a cell, a row
// or a reference. Each has its meaning in IntakeCodes.
const (
	// Files and sheets.
	CodeNoRecords       Code = "no-records"
	CodeFileNotRead     Code = "file-not-read"
	CodeFileSkipped     Code = "file-skipped"
	CodeFileCopy        Code = "file-is-copy"
	CodeFileTooBig      Code = "file-too-big"
	CodeLettersGuessed  Code = "letters-guessed"
	CodeSheetSkipped    Code = "sheet-skipped"
	CodeSheetFitsOther  Code = "sheet-fits-other"
	CodeNoHeader        Code = "no-header"
	CodeStrayQuote      Code = "stray-quote"
	CodeQuoteNotClosed  Code = "quote-not-closed"
	CodeColumnMissing   Code = "column-missing"
	CodeColumnTwice     Code = "column-twice"
	CodeColumnMeaning   Code = "column-holds-other"
	CodeHeaderUnknown   Code = "header-unknown"
	CodeHeaderBlank     Code = "header-blank"
	CodeRowTooLong      Code = "row-too-long"
	CodeTotalsRow       Code = "totals-row"
	CodeHeaderAgain     Code = "header-again"
	CodeHeadingRow      Code = "heading-row"
	CodeRowBarelyFilled Code = "row-barely-filled"
	CodeDistanceUnit    Code = "distance-unit"
	CodeDistanceAssumed Code = "distance-assumed"
	CodeTitleRows       Code = "title-rows"
	CodeHiddenRead      Code = "hidden-read"
	CodeMergedCells     Code = "merged-cells"
	CodeFilesBeside     Code = "files-not-read"
	CodeOwnReport       Code = "own-report"
	CodeTablesOnSheet   Code = "tables-on-sheet"
	CodeTableUnnamed    Code = "table-unnamed"
	CodeCrossedOut      Code = "crossed-out"
	CodeSumDiffers      Code = "sum-differs"
	CodeSaidInWords     Code = "said-in-words"
	CodeYearTaken       Code = "year-taken"
	CodeYearDoubtful    Code = "year-doubtful"
	CodeChannelDirect   Code = "channel-direct"
	CodeFeeFromNet      Code = "fee-from-net"
	CodeNetDiffers      Code = "net-differs"
	CodeNetUnclear      Code = "net-unclear"
	CodeTicksAsked      Code = "ticks-asked"
	CodeNameOtherwise   Code = "name-otherwise"
	CodeTurnedOver      Code = "turned-over"
	CodeFormRead        Code = "form-read"
	CodeFormLeft        Code = "form-left"
	CodeLinesOfWords    Code = "lines-of-words"
	CodeSupplyBySlip    Code = "supply-by-slip"
	CodeSlipUnplaced    Code = "slip-unplaced"
	CodeCashBook        Code = "cash-book"
	CodeSlipIsPrice     Code = "slip-is-price"
	CodeSaleUndone      Code = "sale-undone"
	CodeAllBelow        Code = "all-below-zero"
	CodeKindFromName    Code = "kind-from-name"
	CodeKindNotInName   Code = "kind-not-in-name"

	// Settings.
	CodeSettingsNotRead Code = "settings-not-read"
	CodeSettingUnknown  Code = "setting-unknown"
	CodeSettingValue    Code = "setting-value"
	CodeSettingUnused   Code = "setting-unused"

	// Cells.
	CodeCellMissing      Code = "cell-missing"
	CodeCellError        Code = "cell-error"
	CodeCellTooLong      Code = "cell-too-long"
	CodeCellNarrow       Code = "cell-too-narrow"
	CodeFormulaNoValue   Code = "formula-no-value"
	CodeDateNotRead      Code = "date-not-read"
	CodeDateNoSuchDay    Code = "date-no-such-day"
	CodeDateOtherOrder   Code = "date-other-order"
	CodeDateYearOnly     Code = "date-year-only"
	CodeDateYearDigits   Code = "date-year-two-digits"
	CodeDateFarOff       Code = "date-far-off"
	CodeDateIsNumber     Code = "date-is-number"
	CodeDateEitherWay    Code = "date-either-way"
	CodeUnitsMetric      Code = "units-metric"
	CodeCurrencyOther    Code = "currency-other"
	CodeYearNotRead      Code = "year-not-read"
	CodeMoneyNotRead     Code = "money-not-read"
	CodeMoneyDecimals    Code = "money-decimals"
	CodeMoneyTooLarge    Code = "money-too-large"
	CodeMoneyNegative    Code = "money-negative"
	CodeDecimalMark      Code = "decimal-mark"
	CodeNumberNotRead    Code = "number-not-read"
	CodeNumberNotFinite  Code = "number-not-finite"
	CodeNumberExponent   Code = "number-exponent"
	CodeNumberIsDate     Code = "number-is-date"
	CodeNumberOutOfRange Code = "number-out-of-range"
	CodeNumberEitherWay  Code = "number-either-way"
	CodeLengthNotRead    Code = "length-not-read"
	CodeAmountNotRead    Code = "amount-not-read"
	CodeAmountRange      Code = "amount-out-of-range"
	CodeUnitUnknown      Code = "unit-unknown"
	CodeUnitMissing      Code = "unit-missing"
	CodeUnitOtherKind    Code = "unit-other-kind"
	CodeUnitNotShops     Code = "unit-not-the-shops"
	CodeCoveragePerUnit  Code = "coverage-per-unit"
	CodeHoursNotRead     Code = "hours-not-read"
	CodeHoursTooMany     Code = "hours-too-many"
	CodeHoursOfDay       Code = "hours-part-of-day"
	CodeChoiceUnknown    Code = "choice-unknown"
	CodeYesNoNotRead     Code = "yes-no-not-read"
	CodeShapeMeasure     Code = "shape-measure"

	// References and names.
	CodePieceUnknown    Code = "piece-unknown"
	CodeSupplyUnknown   Code = "supply-unknown"
	CodeLotUnknown      Code = "lot-unknown"
	CodeScheduleUnknown Code = "schedule-unknown"
	CodeOnePieceOnly    Code = "one-piece-only"
	CodeRefusedRow      Code = "refers-to-refused"
	CodeNameTwice       Code = "name-twice"
	CodeNameIsNumber    Code = "name-is-number"
	CodeNameLooksNumber Code = "name-looks-like-number"
	CodeLotEmpty        Code = "lot-empty"

	// Rows.
	CodePriceMissing        Code = "price-missing"
	CodePriceOnFree         Code = "price-on-free"
	CodePriceAndLot         Code = "price-and-lot"
	CodeLotDate             Code = "lot-date-differs"
	CodeSaleIncomplete      Code = "sale-incomplete"
	CodeSoldOnBoth          Code = "sold-on-both"
	CodeSupplyOrSchedule    Code = "supply-or-schedule"
	CodeAmountWithSchedule  Code = "amount-with-schedule"
	CodeTakenBackSigns      Code = "taken-back-signs"
	CodeAreaMissing         Code = "area-missing"
	CodeLifeMissing         Code = "life-missing"
	CodeTypicalArea         Code = "typical-area"
	CodeStartingCoverage    Code = "starting-coverage"
	CodeDeliveryEither      Code = "delivery-either"
	CodeForPiece            Code = "receipts-for-piece"
	CodeUnitBeside          Code = "unit-beside"
	CodeQuantityUnread      Code = "quantity-beside-price"
	CodeTaxEither           Code = "tax-beside-sale"
	CodeHoursTwice          Code = "hours-on-both"
	CodeContainersLikeUnits Code = "containers-like-units"
	CodeContainersOne       Code = "containers-one"
	CodeOuncesAsWeight      Code = "ounces-as-weight"
	CodePercentBelowOne     Code = "percent-below-one"
	CodeKindNearlyKnown     Code = "kind-nearly-known"
	CodeChannelNearlyAlike  Code = "channel-nearly-alike"
)

// IntakeCodes is what each code of reading means, in one line.
var IntakeCodes = map[Code]string{
	CodeNoRecords:       "there is nothing to read",
	CodeFileNotRead:     "a file cannot be read for what it is",
	CodeFileSkipped:     "a file of another kind is among the records (note)",
	CodeFileCopy:        "all rows of a file stand in another one too",
	CodeFileTooBig:      "a file or sheet is beyond the size limits",
	CodeLettersGuessed:  "a file's letters were taken for Windows ones (note)",
	CodeSheetSkipped:    "a sheet or file has no table's name (note)",
	CodeSheetFitsOther:  "a sheet is named for one table and has another's columns (note)",
	CodeNoHeader:        "a table has no row of column names",
	CodeStrayQuote:      "text follows a closing quotation mark",
	CodeQuoteNotClosed:  "a quotation mark is never closed",
	CodeColumnMissing:   "a column the table needs is not there",
	CodeColumnTwice:     "two columns are read as the same one",
	CodeColumnMeaning:   "a column of days holds none (reported once for the column)",
	CodeHeaderUnknown:   "a column name is not one of the table's (note)",
	CodeHeaderBlank:     "a filled column has no name (note)",
	CodeRowTooLong:      "a row has more values than there are columns",
	CodeTotalsRow:       "a row holds totals and no record (note)",
	CodeHeaderAgain:     "a row is the column names again (note)",
	CodeHeadingRow:      "a row holds only a month or a year, as a heading (note)",
	CodeRowBarelyFilled: "a row has one cell filled, and its table needs more",
	CodeDistanceUnit:    "distances are in km in a shop that counts miles",
	CodeTitleRows:       "rows above the column names were taken for a title (note)",
	CodeHiddenRead:      "hidden rows, columns or a hidden sheet were read (note)",
	CodeMergedCells:     "cells are merged, and only the first of them holds the value (note)",
	CodeFilesBeside:     "files that may hold records are outside the folder that is read (note)",
	CodeOwnReport:       "a workbook that piecebook made itself is not read as records (note)",
	CodeTablesOnSheet:   "a sheet has several tables, and this is what one of them is read as (note)",
	CodeTableUnnamed:    "one of several tables on a sheet is named for none",
	CodeCrossedOut:      "a row or cell is crossed out and left out (note)",
	CodeSumDiffers:      "a sum is not what the rows it stands by come to (note)",
	CodeSaidInWords:     "an amount was read out of words (note, reported once for a column)",
	CodeYearTaken:       "days without a year were read as of the year the sheet is of (note, reported once for a sheet)",
	CodeFeeFromNet:      "fees were worked out from what reached the owner (note, reported once for a sheet)",
	CodeNetDiffers:      "what reached the owner does not fit the fee that is typed or the channel's terms (note)",
	CodeNetUnclear:      "what the fee is cannot be known from what reached the owner",
	CodeTicksAsked:      "a column of ticks does not say what a ticked piece sold for",
	CodeTurnedOver:      "a sheet has its names below each other and is read turned over (note)",
	CodeFormLeft:        "something on a form is no fact of a piece by its name (note)",
	CodeFormRead:        "the same form on many sheets is read as a piece each (note)",
	CodeLinesOfWords:    "a sheet holds lines of words, which are no rows of a table",
	CodeSupplyBySlip:    "a supply that is in no table was made of the words of a slip (note, reported once for a sheet)",
	CodeSlipUnplaced:    "lines of a list of receipts name no supply and no piece, so they are in no figure (note)",
	CodeCashBook:        "a sheet says what came in and what went out, which are two tables (note)",
	CodeSlipIsPrice:     "a line of receipts is what a piece itself cost, which Pieces has already (note)",
	CodeSaleUndone:      "a column that is not read says of a sale that it was undone, or is not done yet (note)",
	CodeAllBelow:        "all amounts of a column of what was paid are below 0, which is money back (note)",
	CodeKindFromName:    "kinds were read from the names of pieces (note, reported once for a sheet)",
	CodeKindNotInName:   "a piece's name does not end with the one kind it is (reported once for a sheet)",
	CodeNameOtherwise:   "a name in other words' order or signs was read as the one there is (note)",
	CodeChannelDirect:   "a sale without a channel was read as direct (note, reported once for a sheet)",
	CodeYearDoubtful:    "a day without a year may be of the year before or after the sheet's month",
	CodeDistanceAssumed: "a column called miles was read as km in a metric shop (note)",

	CodeSettingsNotRead: "settings.toml cannot be read",
	CodeSettingUnknown:  "a setting of that name does not exist",
	CodeSettingValue:    "a setting has a value it cannot have",
	CodeSettingUnused:   "settings.toml names a sheet or column that is not there (note)",

	CodeCellMissing:      "a cell that is needed is blank",
	CodeCellError:        "a cell holds a spreadsheet error",
	CodeCellTooLong:      "a cell holds more text than a spreadsheet's can",
	CodeCellNarrow:       "a spreadsheet wrote # signs for a column too narrow",
	CodeFormulaNoValue:   "a formula was saved without its value",
	CodeDateNotRead:      "a cell is not a date",
	CodeDateNoSuchDay:    "there is no such day",
	CodeDateOtherOrder:   "days are written in the other order than dates says (reported once for a sheet)",
	CodeDateYearOnly:     "a date is a bare year",
	CodeDateYearDigits:   "a year of two digits from 50 on",
	CodeDateFarOff:       "a date is outside 1950 to 2199",
	CodeDateIsNumber:     "a spreadsheet turned a date into its count of days",
	CodeDateEitherWay:    "days that can be read either way were read month first, and other things say day first (note)",
	CodeUnitsMetric:      "containers are metric throughout, and units is not set (note)",
	CodeCurrencyOther:    "amounts name another currency, and currency is not set (note)",
	CodeYearNotRead:      "a cell is not a year",
	CodeMoneyNotRead:     "a cell is not an amount of money",
	CodeMoneyDecimals:    "money has over two decimals",
	CodeMoneyTooLarge:    "money has over 13 digits before the decimals",
	CodeMoneyNegative:    "money is negative where it cannot be",
	CodeDecimalMark:      "a number uses the other decimal mark",
	CodeNumberNotRead:    "a cell is not a number",
	CodeNumberNotFinite:  "a cell is NaN or an infinity",
	CodeNumberExponent:   "a number is written with an exponent",
	CodeNumberIsDate:     "a spreadsheet turned a number into a date",
	CodeNumberOutOfRange: "a number is outside what the column takes",
	CodeNumberEitherWay:  "a number's mark may be for thousands or for decimals (note)",
	CodeLengthNotRead:    "a cell is not a length",
	CodeAmountNotRead:    "a cell is not an amount",
	CodeAmountRange:      "an amount is zero or negative where it cannot be",
	CodeUnitUnknown:      "a unit is not known",
	CodeUnitMissing:      "an amount needs its unit",
	CodeUnitOtherKind:    "a unit is of another kind than the supply's",
	CodeUnitNotShops:     "an area or distance is in the other system than the shop works in",
	CodeCoveragePerUnit:  "a coverage is of one unit, such as a gallon, and not of the container",
	CodeHoursNotRead:     "a cell is not hours",
	CodeHoursTooMany:     "an Hours line is over 24 hours",
	CodeHoursOfDay:       "hours are, or may be, a time of day as spreadsheets save it (else a note)",
	CodeChoiceUnknown:    "a word is not one of those the column takes",
	CodeYesNoNotRead:     "a cell is neither yes nor no",
	CodeShapeMeasure:     "a shape lacks a measure it needs",

	CodePieceUnknown:    "no piece, lot or set has that name",
	CodeSupplyUnknown:   "no supply has that name",
	CodeLotUnknown:      "no lot has that name",
	CodeScheduleUnknown: "no schedule has that name",
	CodeOnePieceOnly:    "a lot or set stands where one piece is needed",
	CodeRefusedRow:      "a row depends on another that was refused",
	CodeNameTwice:       "two rows have the same name",
	CodeNameIsNumber:    "a spreadsheet turned a name into a date or a number with an exponent",
	CodeNameLooksNumber: "a name looks as if a spreadsheet had changed it (note)",
	CodeLotEmpty:        "no piece belongs to a lot",

	CodePriceMissing: "a bought or traded piece has neither price nor lot",
	CodePriceOnFree:  "a free or client piece has a price",
	CodePriceAndLot:  "a piece has both a lot and a price",
	CodeLotDate:      "a piece's day differs from its lot's (note)",
	CodeSaleIncomplete: "a sale of a piece on its own row, or of a tool, lacks its day or price, or came " +
		"before it was bought",
	CodeSoldOnBoth:          "a piece is sold on its own row and in Sales",
	CodeSupplyOrSchedule:    "a use has both or neither of supply and schedule",
	CodeAmountWithSchedule:  "a use of a schedule has an amount",
	CodeTakenBackSigns:      "containers and cost of a purchase differ in sign",
	CodeAreaMissing:         "a use has no area and its piece none either",
	CodeLifeMissing:         "a tool above the year's limit has no life",
	CodeTypicalArea:         "a piece's area is the usual one of its kind (note)",
	CodeStartingCoverage:    "a supply's coverage is its group's usual one (note)",
	CodeDeliveryEither:      "a column of delivery may be what buyers paid or what it cost the shop",
	CodeForPiece:            "a column of a list of receipts says which piece a line is for (note)",
	CodeUnitBeside:          "a column beside numbers holds their units, and the two are read together (note)",
	CodeQuantityUnread:      "a number of things stands beside a price that is read as the whole line (note)",
	CodeTaxEither:           "the tax beside the price it sold for is read as tax paid on buying (note)",
	CodeHoursTwice:          "a piece has hours on its own row and in Hours too (note)",
	CodeContainersLikeUnits: "as many containers as there are units in one (note)",
	CodeContainersOne:       "a line of receipts without a count of containers is one (note)",
	CodeOuncesAsWeight:      "a container of a liquid in plain ounces, which are a weight (note)",
	CodePercentBelowOne:     "a percentage is typed as a bare number below 1 (note)",
	CodeKindNearlyKnown:     "a kind that one piece has is spelled nearly like another (note)",
	CodeChannelNearlyAlike:  "a channel is spelled nearly like another (note)",
}
