//! Arguments of mistakes in files: kinds of things, what was expected, why something cannot be used.

use crate::row::{sentences, words};
use latchline_finding::Both;

words! {
    /// A kind of thing that a table of a file describes or that a name stands for.
    pub enum Thing {
        // Site files.
        SiteFile: "site file" | "Anlagendatei",
        Site: "site" | "Anlage",
        Condition: "condition" | "Bedingung",
        Policy: "policy" | "Vorgabe",
        Building: "building" | "Gebäude",
        Supply: "supply" | "Netzteil",
        Box: "box" | "Verteiler",
        Distributor: "distributor" | "Verteiler",
        BranchBox: "branch box" | "Abzweigdose",
        ManagementStation: "management station" | "Zentrale",
        DoorStation: "door station" | "Türstation",
        IndoorStation: "indoor station" | "Innenstation",
        Dwelling: "dwelling" | "Wohnung",
        Entrance: "entrance" | "Eingang",
        Extension: "extension" | "Nebenstelle",
        Run: "run" | "Strang",
        Measurement: "measurement" | "Messung",
        Acceptance: "acceptance" | "Akzeptanz",
        Revision: "revision" | "Stand",
        Lock: "lock" | "Schloss",
        CableAtLock: "cable at a lock" | "Leitung an einem Schloss",
        LightAtDoor: "light at a door" | "Leuchte an einer Tür",
        AlarmInput: "alarm input" | "Meldeeingang",
        Station: "station" | "Station",
        Floor: "floor" | "Geschoss",
        Core: "core" | "Treppenhaus",
        StartOfRun: "supply, port or station (key from of a run)" | "Netzteil, Abgang oder Station als Anfang eines Strangs",
        StopOfRun: "station or box" | "Station oder Verteiler als Ziel eines Strangs",
        Scope: "dwelling, floor or building (key calls)" | "Wohnung, Geschoss oder Gebäude, die gerufen werden",
        ScopeOfSurvey: "dwelling, floor or building (column Calls)" | "Wohnung, Geschoss oder Gebäude (Spalte Calls)",
        Place: "place" | "Ort",
        PlaceOrDwelling: "place or dwelling" | "Ort oder Wohnung",
        Code: "code" | "Code",
        Element: "element" | "Element",
        Choice: "choice" | "Auswahl",
        // Catalogues.
        CatalogueFile: "catalogue file" | "Katalogdatei",
        Family: "family" | "Gerätefamilie",
        SignalBand: "signal band" | "Signalband",
        AddressScheme: "address scheme" | "Adressschema",
        AddressField: "address field" | "Adressfeld",
        SupplyModel: "supply model" | "Netzteilmodell",
        Battery: "battery" | "Batterie",
        BoxModel: "box model" | "Verteilermodell",
        StationModel: "station model" | "Stationsmodell",
        Cable: "cable" | "Leitung",
        LineConstant: "line constant" | "Leitungskonstante",
        CableLoss: "cable loss" | "Leitungsdämpfung",
        LockModel: "lock model" | "Schlossmodell",
        Accessory: "accessory" | "Modul",
        Light: "light" | "Leuchte",
        Part: "part" | "Teil",
        Rate: "rate" | "Umrechnungskurs",
        // What a value is written as.
        Text: "text" | "Text",
        Integer: "a whole number" | "eine ganze Zahl",
        Float: "a number with a point" | "eine Kommazahl",
        Boolean: "true or false" | "true oder false",
        DateTime: "a date" | "ein Datum",
        Array: "a list in [ ]" | "eine Liste in [ ]",
        Table: "a table in { }" | "eine Tabelle in { }",
    }
}

words! {
    /// What a quantity measures.
    pub enum Dimension {
        Length: "length" | "Länge",
        CrossSection: "cross-section" | "Querschnitt",
        WireGauge: "wire gauge" | "Drahtlehre",
        Voltage: "voltage" | "Spannung",
        Current: "current" | "Strom",
        Power: "power" | "Leistung",
        Resistance: "resistance" | "Widerstand",
        ResistancePerLength: "resistance per length" | "Widerstand je Länge",
        Time: "time" | "Zeit",
        Capacitance: "capacitance" | "Kapazität",
        CapacitancePerLength: "capacitance per length" | "Kapazität je Länge",
        Inductance: "inductance" | "Induktivität",
        InductancePerLength: "inductance per length" | "Induktivität je Länge",
        Frequency: "frequency" | "Frequenz",
        Level: "level" | "Pegel",
        BatteryCapacity: "battery capacity" | "Batteriekapazität",
        Temperature: "temperature" | "Temperatur",
        Percentage: "percentage" | "Prozentangabe",
    }
}

sentences! {
    /// What stands where something else was expected. Numbers are as the files write them, with a decimal point.
    pub enum Expected<'a> {
        Text: "text in quotes" | "Text in Anführungszeichen",
        Date: "a date such as 2026-11-02" | "ein Datum wie 2026-11-02",
        WholeNumber { low: &'a str, high: &'a str }:
            "a whole number from {low} to {high}"
            | "eine ganze Zahl von {low} bis {high}",
        AnyWholeNumber: "a whole number" | "eine ganze Zahl",
        Number { low: &'a str, high: &'a str }: "a number from {low} to {high}" | "eine Zahl von {low} bis {high}",
        Boolean: "true or false" | "true oder false",
        BooleanOr { word: &'a str }: "true, false or \"{word}\"" | "true, false oder „{word}“",
        Quantity { dimension: &'a Both, low: &'a str, high: &'a str, example: &'a str }:
            "a {dimension} from {low} to {high}, such as \"{example}\""
            | "{dimension} von {low} bis {high}, etwa „{example}“",
        Load:
            "a load such as \"4.5 W\", \"85 mA\" or \"470 ohm\""
            | "eine Last wie „4.5 W“, „85 mA“ oder „470 ohm“",
        Gauge:
            "a conductor size such as \"1.5 mm²\", \"0.8 mm\", \"24 AWG\" or \"84.2 ohm/km\""
            | "ein Leiterquerschnitt wie „1.5 mm²“, „0.8 mm“, „24 AWG“ oder „84.2 ohm/km“",
        OneOf { words: &'a str }: "one of {words}" | "eines von {words}",
        List { item: &'a Both }: "a list of: {item}" | "eine Liste aus: {item}",
        OneOrList { item: &'a Both }: "one or a list of: {item}" | "eines oder eine Liste aus: {item}",
        KeyNames: "a list of keys of this table" | "eine Liste von Schlüsseln dieser Tabelle",
        Table { thing: &'a Both }:
            "a table that describes a {thing}"
            | "eine Tabelle, die etwas beschreibt ({thing})",
        TableOfVowel { thing: &'a Both }:
            "a table that describes an {thing}"
            | "eine Tabelle, die etwas beschreibt ({thing})",
        Names { thing: &'a Both }:
            "a table of names, each describing a {thing}"
            | "eine Tabelle von Namen, unter denen je etwas beschrieben ist ({thing})",
        NamesOfVowel { thing: &'a Both }:
            "a table of names, each describing an {thing}"
            | "eine Tabelle von Namen, unter denen je etwas beschrieben ist ({thing})",
        // In site files and catalogues.
        CableHereOrUnderSite:
            "a cable here, or cable under [site]"
            | "eine Leitung hier, oder cable unter [site]",
        StationHereOrUnderSite { key: &'a str }:
            "a station model here, or {key} under [site]"
            | "ein Stationsmodell hier, oder {key} unter [site]",
        ConductorClass:
            "1 (solid), 2 (stranded) or 5 (flexible), the class of IEC 60228"
            | "1 (massiv), 2 (mehrdrähtig) oder 5 (feindrähtig), die Klasse nach IEC 60228",
        LossesOrConstants:
            "either losses, or skin_corner and loss_tangent"
            | "entweder losses, oder skin_corner und loss_tangent",
        ThreeLosses: "at least three losses" | "mindestens drei Dämpfungen",
        // In surveys.
        LengthInMetres: "a length in metres, such as 12.5" | "eine Länge in Metern, etwa 12,5",
        AnyNumber: "a number in digits, such as 4" | "eine Zahl in Ziffern, etwa 4",
        NumberInUnit { unit: &'a str }:
            "a number of {unit} in digits, such as 4"
            | "eine Zahl in {unit}, in Ziffern, etwa 4",
        TextOrNumber: "text or a number" | "Text oder eine Zahl",
        YesOrNo: "yes or no" | "ja oder nein",
        ADate: "a date" | "ein Datum",
        WrittenDate: "a date such as 2026-03-02" | "ein Datum wie 2026-03-02",
    }
}

words! {
    /// Why a name or a text cannot be used.
    pub enum BadName {
        Empty: "it is empty" | "er ist leer",
        ControlCharacter: "it holds a control character or a line break" | "er enthält ein Steuerzeichen oder einen Zeilenumbruch",
        TooLong: "it is too long" | "er ist zu lang",
        SpaceAtEnd: "it has a space at an end" | "er hat ein Leerzeichen am Rand",
        Slash: "it holds a slash" | "er enthält einen Schrägstrich",
        Dotted:
            "a name with a point in it is written in quotes"
            | "ein Name mit einem Punkt darin wird in Anführungszeichen geschrieben",
    }
}

sentences! {
    /// What does not fit in a range of dwellings.
    pub enum BadRange<'a> {
        Floors { dwellings: usize, per_floor: usize, needs: usize, first: &'a str, has: usize, most: usize, wanted: usize }:
            "{dwellings:dwelling|dwellings} at {per_floor} on a floor fill {needs:floor|floors}, and from {first} up the building has {has}: at most {most:dwelling|dwellings} fit, or per_floor = {wanted}"
            | "{dwellings:Wohnung|Wohnungen} zu {per_floor} je Geschoss füllen {needs:Geschoss|Geschosse}, und ab {first} aufwärts hat das Gebäude {has}: höchstens {most:Wohnung|Wohnungen} passen, oder per_floor = {wanted}",
        Overlap { other: &'a str, shared: usize }:
            "{other} above has {shared} of them too: end the one before the other begins"
            | "{other} darüber hat {shared} davon auch: den einen enden lassen, bevor der andere beginnt",
        Beginnings { first: &'a str, last: &'a str }:
            "the ends of the range, {first} and {last}, do not begin alike: write both ends the same but for the number, as in A-1..A-32"
            | "die Enden des Bereichs, {first} und {last}, beginnen nicht gleich: beide Enden bis auf die Zahl gleich schreiben, wie in A-1..A-32",
        NoNumber { end: &'a str }:
            "{end} does not end in a number: write both ends with one, as in A-1..A-32"
            | "{end} endet nicht mit einer Zahl: beide Enden mit einer schreiben, wie in A-1..A-32",
        Down { from: &'a str, to: &'a str }:
            "the range counts down from {from} to {to}: write the lower number first, as in A-1..A-32"
            | "der Bereich zählt abwärts von {from} bis {to}: die kleinere Zahl zuerst schreiben, wie in A-1..A-32",
        Dash { first: &'a str, last: &'a str }:
            "a range has two dots: write {first}..{last}"
            | "ein Bereich hat zwei Punkte: {first}..{last} schreiben",
        TooMany { most: usize }:
            "it stands for more than {most:name|names}: divide it"
            | "er steht für mehr als {most:Namen|Namen}: aufteilen",
    }
}

words! {
    /// What a number of a survey counts.
    pub enum SurveyUnit {
        Stations: "stations" | "Stationen",
    }
}

words! {
    /// Why settings of a survey cannot all be kept, or a sheet cannot be read.
    pub enum SurveyReason {
        Temperatures:
            "the coldest temperature must not lie above the usual one, nor that above the hottest"
            | "die kälteste Temperatur darf nicht über der üblichen liegen, und diese nicht über der wärmsten",
        NotUtf8:
            "it is not UTF-8 text; save it as CSV UTF-8"
            | "es ist kein UTF-8-Text; als CSV UTF-8 speichern",
    }
}

words! {
    /// Why the cells of a survey's file cannot be had.
    pub enum SheetMistake {
        NotAnArchive:
            "its bytes are not those of a workbook, or a part of them is missing; copy it anew, or save it as XLSX"
            | "ihre Bytes sind nicht die einer Arbeitsmappe, oder ein Teil davon fehlt; neu kopieren oder als XLSX speichern",
        Encrypted: "it is encrypted; save it without a password" | "sie ist verschlüsselt; ohne Kennwort speichern",
        PackedOtherwise:
            "it is packed in a way that is not read; open it in a spreadsheet program and save it as XLSX"
            | "sie ist auf eine Art gepackt, die nicht gelesen wird; in einer Tabellenkalkulation öffnen und als XLSX speichern",
        PartMissing:
            "a part of the workbook is missing; open it in a spreadsheet program and save it anew"
            | "ein Teil der Arbeitsmappe fehlt; in einer Tabellenkalkulation öffnen und neu speichern",
        PartDamaged:
            "a part of the workbook is damaged; open it in a spreadsheet program and save it anew"
            | "ein Teil der Arbeitsmappe ist beschädigt; in einer Tabellenkalkulation öffnen und neu speichern",
        NeverComputed: "a formula that was never computed" | "eine Formel, die nie berechnet wurde",
        NoTable: "it is no table of cells; save it as CSV UTF-8" | "es ist keine Tabelle aus Zellen; als CSV UTF-8 speichern",
    }
}

sentences! {
    /// What a reader that we did not write says of a file; it speaks English.
    pub enum Foreign<'a> {
        Reader { message: &'a str }: "{message}" | "(Meldung des Lesers, englisch) {message}",
    }
}

words! {
    /// Where in a site file a kind of thing is written; heads of tables are keys.
    pub enum WrittenUnder {
        Buildings: "[buildings]" | same,
        Cores: "cores of the building, in [buildings]" | "cores des Gebäudes, in [buildings]",
        Dwellings: "[dwellings]" | same,
        Floors: "floors of the building, in [buildings]" | "floors des Gebäudes, in [buildings]",
        Supplies: "[supplies]" | same,
    }
}

words! {
    /// Mistakes of TOML that are recognised.
    pub enum TomlMistake {
        NoQuotes: "text without quotes" | "Text ohne Anführungszeichen",
        HeadBegins: "the head of a table lacks its first bracket, [" | "dem Kopf einer Tabelle fehlt die erste Klammer, [",
        HeadOpen: "the head of a table is not closed, a ] is missing" | "der Kopf einer Tabelle ist nicht geschlossen, eine ] fehlt",
        BraceOpen: "a { is not closed, a } is missing" | "eine { ist nicht geschlossen, eine } fehlt",
        NoValue: "after the name = and a value are missing" | "nach dem Namen fehlen = und ein Wert",
        NothingAfterEquals: "after = a value is missing, or its quotes" | "nach = fehlt ein Wert, oder seine Anführungszeichen",
        CommaBetweenKeys: "between two keys in { } a comma is missing, or the } before" | "zwischen zwei Schlüsseln in { } fehlt ein Komma, oder davor die }",
        CommaInList: "in a list a comma is missing, or the ] at its end" | "in einer Liste fehlt ein Komma, oder am Ende die ]",
        QuoteOpen: "a text is not closed, its last quote is missing" | "ein Text ist nicht geschlossen, das letzte Anführungszeichen fehlt",
        LongTextOpen: "a text that begins with three quotes is not closed by three" | "ein Text, der mit drei Anführungszeichen beginnt, endet nicht mit dreien",
        Backslash: "in double quotes \\\\ is written for one \\, or the text in single quotes" | "in doppelten Anführungszeichen steht \\\\ für ein \\, oder der Text in einfachen",
        ListOpen: "a list is not closed, a ] is missing" | "eine Liste ist nicht geschlossen, eine ] fehlt",
    }
}

words! {
    /// Because of what a key is missing.
    pub enum Because {
        Gauge: "gauge" | same,
        NoLosses: "a line without losses" | "einer Zeile ohne losses",
    }
}
