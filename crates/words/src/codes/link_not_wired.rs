//! `link-not-wired`

code! {
    "link-not-wired"
    title: "The signal link of an isolating box is open" | "Der Signaleingang eines trennenden Verteilers ist offen",
    short: "link not wired" | "Signaleingang offen",
    message:
        "the signal link of the isolating box {element} is open"
        | "Der Signaleingang des trennenden Verteilers {element} ist offen",
    hint:
        "add a run to {element}.link, or its stations hear only door stations on the box itself"
        | "einen Strang nach {element}.link ergänzen, sonst hören seine Stationen nur Türstationen am Verteiler selbst",
    english:
        /// # What it checks
        /// Isolating boxes whose signal link no run reaches.
        ///
        /// # Why it matters
        /// An isolating box passes only the signals of its link: the stations on it hear only door stations on the
        /// box itself.
        ///
        /// # Example
        /// B-I1 has a supply on its input, and nothing on B-I1.link.
        ///
        /// # What to do
        /// Add a run to the link. A block that is to hear only its own doors is accepted with a reason.
    german:
        /// # Was geprüft wird
        /// Trennende Verteiler, deren Signaleingang kein Strang erreicht.
        ///
        /// # Warum es zählt
        /// Ein trennender Verteiler lässt nur die Signale seines Signaleingangs durch: Die Stationen an ihm hören
        /// nur Türstationen am Verteiler selbst.
        ///
        /// # Beispiel
        /// B-I1 hat ein Netzteil an seinem Eingang und nichts an B-I1.link.
        ///
        /// # Was zu tun ist
        /// Einen Strang zum Signaleingang ergänzen. Ein Block, der nur seine eigenen Türen hören soll, wird mit
        /// Begründung akzeptiert.
}
