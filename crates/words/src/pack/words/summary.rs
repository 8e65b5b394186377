//! Summary and what is in hand.

/// Hands these rows and those before them on to the next table.
macro_rules! summary {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AssumedValue: "Rests on an assumed value" | "Beruht auf einer Annahme",
        BranchBoxes: "Branch boxes" | "Abzweigdosen",
        Buildings: "Buildings" | "Gebäude",
        CurrentInHand: "Current in hand" | "Stromreserve",
        Distributors: "Distributors" | "Verteiler",
        Dwellings: "Dwellings" | "Wohnungen",
        Entrances: "Entrances" | "Eingänge",
        ExistingCable: "Cable in the walls already" | "Vorhandene Leitung",
        Family: "Family of parts" | "Gerätefamilie",
        FreePorts: "Free ports" | "Freie Abgänge",
        InHandNote:
            "Stations in hand: further stations of the last one's model that the end of the run could carry, as far as voltage, current and datasheet counts tell. An estimate: the proof is to add them and check again."
            | "Stationen in Reserve: weitere Stationen des letzten Modells, die das Ende der Leitung nach Spannung, Strom und Datenblattzahlen tragen könnte. Eine Schätzung: Beweis ist, sie einzutragen und neu zu prüfen.",
        InHandTitle: "What is in hand" | "Reserven",
        LargestCurrent: "Largest current" | "Größter Strom",
        LargestPower: "Largest power" | "Größte Leistung",
        LeastMargin: "Least margin to a limit" | "Kleinste Reserve zu einem Grenzwert",
        LoadingMargin: "Loading margin" | "Lastreserve",
        LoadingMarginMeaning:
            "factor by which all loads could grow before the voltage collapses"
            | "Faktor, um den alle Lasten wachsen könnten, bis es keinen Arbeitspunkt mehr gibt",
        ManagementStations: "Management stations" | "Zentralen",
        NewCable: "New cable" | "Neue Leitung",
        PowerInHand: "Power in hand" | "Leistungsreserve",
        Runs: "Runs" | "Stränge",
        SearchBounded:
            "search not complete: the figures are the worst found"
            | "Suche unvollständig: Die Werte sind die ungünstigsten gefundenen",
        SearchComplete: "search complete" | "Suche vollständig",
        StatesSolved: "Operating states that were solved" | "Gerechnete Betriebszustände",
        StationsInHand: "Stations in hand" | "Stationen in Reserve",
        SummaryTitle: "System summary" | "Anlagenübersicht",
        Supplies: "Supplies" | "Netzteile",
        WhatIsThere: "What is there" | "Bestand",
        WorstDevice: "Worst device" | "Ungünstigstes Gerät",
        }
    };
}

pub(super) use summary;
