//! The table of faults.

/// Hands these rows and those before them on to the next table.
macro_rules! faults {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        FaultAsPlanned: "as planned" | "wie geplant",
        FaultCurrent: "Current into it, of a supply or box out of it" | "Strom hinein, bei Netzteil oder Verteiler heraus",
        FaultEnd: "Voltage where it ends" | "Spannung am Ende",
        FaultInsulation: "Insulation between the legs, alone" | "Isolation zwischen den Adern, allein",
        FaultLoop: "Loop alone, far end shorted" | "Schleife allein, Ende gebrückt",
        FaultOpen: "open" | "offen",
        FaultShare: "Of a hundred faults" | "Von hundert Fehlern",
        FaultStart: "Voltage where it begins" | "Spannung am Anfang",
        FaultWhat: "Then it is, the most probable first" | "Dann ist es, das Wahrscheinlichste zuerst",
        FaultWhere: "Run, box or supply" | "Strang, Verteiler oder Netzteil",
        FaultWithout: "without a fault" | "ohne Fehler",
        FaultsHowToFindWhere:
            "Where on a run: read the voltage halfway. It is right up to a joint or break and wrong behind it; leakage and shorts pull it down all the way, and are halved by opening the run."
            | "Wo im Strang: Spannung in der Mitte messen. Bis zu einer schlechten Verbindung oder Unterbrechung stimmt sie, dahinter nicht; Ableitung und Schluss ziehen sie überall herunter und werden durch Auftrennen eingegrenzt.",
        FaultsHowToRead:
            "Read at the run, box or supply and go down its rows: where every figure fits, it is what that row says. Voltages and currents in standby by day, nobody calling, everything connected; loop and insulation of the run alone, dead, taken off at both ends and from its stations."
            | "Am Strang, Verteiler oder Netzteil messen und die Zeilen durchgehen: Wo jeder Wert passt, ist es, was in der Zeile steht. Spannungen und Ströme in Bereitschaft am Tag, kein Ruf, alles angeschlossen; Schleife und Isolation am Strang allein, spannungsfrei, an beiden Enden und von den Stationen abgeklemmt.",
        FaultsSiteFails:
            "The site as drawn does not pass its check: it may itself be the cause. Look at the snags first."
            | "Die Anlage wie gezeichnet besteht die Prüfung nicht: Sie kann selbst die Ursache sein. Zuerst die Mängel ansehen.",
        FaultsTitle: "If you read this, it is that: table of faults" | "Gemessen – also: Fehlertabelle",
        FaultsNone:
            "No supply of this site feeds anything: there is no reading that a fault would change."
            | "Kein Netzteil dieser Anlage speist etwas: Es gibt keinen Messwert, den ein Fehler ändern würde.",
        FaultsNotMade:
            "This table was not worked out for these papers: the program prints it on the laptop."
            | "Diese Tabelle wurde für diese Unterlagen nicht berechnet: Das Programm druckt sie am Laptop.",
        FaultsRestOn:
            "How often each is met is common practice, no source, of installations that have been in service for more than a month. What is read without a fault is the plan's, with every tolerance; the sheets of readings add what a plain meter may be off by, so that theirs are wider. Ranges of faults hold tolerances and a good meter to two deviations, and sizes of each fault at five steps. They are true only if the site file is as built, and know one fault at a time. The laptop's answer from the same readings is finer, knows calls and what people tell, and proposes the next reading."
            | "Wie oft jeder vorkommt, ist übliche Praxis, ohne Quelle, für Anlagen, die länger als einen Monat in Betrieb sind. Ohne Fehler gilt, was der Plan mit allen Toleranzen ergibt; die Messblätter zählen hinzu, was ein einfaches Messgerät abweichen darf, und sind daher weiter. Die Bereiche der Fehler enthalten Toleranzen und ein gutes Messgerät bis zwei Standardabweichungen und die Größe jedes Fehlers in fünf Stufen. Sie gelten nur, wenn die Anlagendatei dem Gebauten entspricht, und kennen einen Fehler auf einmal. Die Antwort des Laptops aus denselben Messwerten ist feiner, kennt Rufe und Meldungen und schlägt die nächste Messung vor.",
        }
    };
}

pub(super) use faults;
