//! Calls and names.

/// Hands these rows and those before them on to the next table.
macro_rules! calls {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        Called: "Called" | "Gerufen",
        CalledFrom: "Can be called from" | "Kann gerufen werden von",
        CallsTitle: "Who calls whom" | "Wer ruft wen",
        Dwelling: "Dwelling" | "Wohnung",
        NameOnPanel: "Name on the panel" | "Name auf dem Tableau",
        NamesPrivacy:
            "Ask the owner which names may be shown; numbers do as well."
            | "Beim Eigentümer erfragen, welche Namen gezeigt werden dürfen; Nummern genügen auch.",
        NameLeftOut: "(left out)" | "(weggelassen)",
        NamesTitle: "Name lists of panels and directories" | "Namenslisten der Tableaus und Verzeichnisse",
        NewName: "Name wanted" | "Gewünschter Name",
        Nobody: "nobody" | "niemand",
        OpensLocks: "Opens (after a call)" | "Öffnet (nach einem Ruf)",
        OpensMeaning:
            "A station opens the locks of the entrance that called it."
            | "Eine Station öffnet die Schlösser des Eingangs, der sie gerufen hat.",
        Panel: "Panel" | "Tableau",
        }
    };
}

pub(super) use calls;
