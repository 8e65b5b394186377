//! Summary and what is in hand.

/// Hands these rows and those before them on to the next table.
macro_rules! summary {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AssumedValues:
            "Assumed values: neither stated nor measured"
            | "Angenommene Werte: weder angegeben noch gemessen",
        AssumedValue: "Assumed" | "Angenommen",
        BranchBoxes: "Branch boxes" | "Abzweigdosen",
        Buildings: "Buildings" | "Gebäude",
        ByWhatMeans: "exit button, reader or keypad" | "Türöffnertaster, Leser oder Tastatur",
        CurrentInHand: "Current in hand" | "Stromreserve",
        Distributors: "Distributors" | "Verteiler",
        Dwellings: "Dwellings" | "Wohnungen",
        Entrances: "Entrances" | "Eingänge",
        ExistingCable: "Cable in the walls already" | "Vorhandene Leitung",
        Family: "Family of parts" | "Gerätefamilie",
        FirstLimit: "Load at which the first limit is met" | "Last, bei der die erste Grenze erreicht wird",
        FreePorts: "Free ports" | "Freie Abgänge",
        InHandNote:
            "How many further stations a run or a free port carries is found by adding them and checking the whole again."
            | "Wie viele weitere Stationen ein Strang oder freier Abgang trägt, zeigt sich, indem man sie einträgt und alles neu prüft.",
        InHandTitle: "What is in hand" | "Reserven",
        LargestCurrent: "Largest current" | "Größter Strom",
        LargestPower: "Largest power in any state" | "Größte Leistung in allen Zuständen",
        LeastMargin: "Least margin to a limit" | "Kleinste Reserve zu einem Grenzwert",
        LoadingMargin: "Load at which the voltage collapses" | "Last, bei der die Spannung zusammenbricht",
        LoadingMarginMeaning:
            "so many times today's, all loads together"
            | "Vielfaches von heute, alle Lasten zusammen",
        ManagementStations: "Management stations" | "Zentralen",
        NewCable: "New cable" | "Neue Leitung",
        NotCounted: "not counted" | "nicht gerechnet",
        OneSet: "one calculation of each supply" | "eine Rechnung je Netzteil",
        PowerInHand: "Power in hand" | "Leistungsreserve",
        ReleasesOutsideCalls: "Releases outside calls" | "Freigaben außerhalb von Rufen",
        Runs: "Runs" | "Stränge",
        SearchBounded:
            "some were left out: the figures are the worst found"
            | "einige ausgelassen: Die Werte sind die ungünstigsten gefundenen",
        SearchComplete:
            "no other can be worse"
            | "keine andere kann ungünstiger sein",
        StatesSolved: "Operating states that were calculated" | "Gerechnete Betriebszustände",
        SummaryTitle: "System summary" | "Anlagenübersicht",
        Supplies: "Supplies" | "Netzteile",
        WhatIsThere: "What is there" | "Bestand",
        WorstDevice: "Worst device" | "Ungünstigstes Gerät",
        }
    };
}

pub(super) use summary;
