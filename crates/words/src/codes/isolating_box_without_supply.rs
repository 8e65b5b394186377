//! `isolating-box-without-supply`

code! {
    "isolating-box-without-supply"
    title: "An isolating box has no supply" | "Ein trennender Verteiler hat kein Netzteil",
    message:
        "the isolating box {name} has no supply on its input"
        | "Der trennende Verteiler {name} hat kein Netzteil an seinem Eingang",
    label: "no supply" | "kein Netzteil",
    hint:
        "add a run from a supply to {name}; its link passes signals only"
        | "einen Strang von einem Netzteil zu {name} ergänzen; sein Signaleingang lässt nur Signale durch",
    english:
        /// An isolating box passes only signals from its link; what hangs on its ports takes power from a supply on its input. No supply feeds that input.
        ///
        /// Example: add `A-D2-feed = { from = "A-PS2", to = "A-D2", ... }`.
    german:
        /// Ein trennender Verteiler lässt von seinem Signaleingang nur Signale durch; was an seinen Abgängen hängt, nimmt Strom von einem Netzteil an seinem Eingang. Kein Netzteil speist diesen Eingang.
        ///
        /// Beispiel: `A-D2-feed = { from = "A-PS2", to = "A-D2", ... }` ergänzen.
}
