//! Revisions of the plan, trade words.

/// Hands these rows and those before them on to the next table.
macro_rules! revisions {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        CheckedBy: "Checked by" | "Geprüft von",
        GlossaryNote:
            "Only words that occur in this pack. The values that the figures rest on without being stated are in the summary."
            | "Nur Wörter, die in dieser Mappe vorkommen. Die Werte, auf denen die Zahlen ruhen, ohne angegeben zu sein, stehen in der Anlagenübersicht.",
        GlossaryTitle: "Trade words of this pack" | "Fachwörter dieser Mappe",
        MadeBy: "Made by" | "Erstellt von",
        PeopleLeftOut:
            "Names of people are left out here; they stand only in a pack that is made with names."
            | "Namen von Personen sind hier weggelassen; sie stehen nur in einer Mappe, die mit Namen erstellt wird.",
        RevisionByHand:
            "Whoever changes something on paper writes it into a free row, and gives it to the office."
            | "Wer auf dem Papier etwas ändert, trägt es in eine freie Zeile ein und gibt es ins Büro.",
        RevisionsTitle: "Revisions" | "Änderungsverzeichnis",
        TradeWord: "Word" | "Wort",
        WhatChanged: "What changed" | "Änderung",
        WhatItMeans: "What it means" | "Was es bedeutet",
        }
    };
}

pub(super) use revisions;
