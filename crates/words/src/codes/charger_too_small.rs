//! `charger-too-small`

code! {
    "charger-too-small"
    title: "A charger that takes more than a day" | "Ein Ladegerät, das länger als einen Tag braucht",
    short: "charger too small" | "Ladegerät zu klein",
    message:
        "the charger of {element} gives {value}; to charge the battery within a day takes {limit}"
        | "Das Ladegerät von {element} gibt {value}; um die Batterie in einem Tag zu laden, braucht es {limit}",
    label: "<{hours} for {capacity}>" | "<{hours} für {capacity}>",
    hint:
        "take a smaller battery if its hours suffice, or a supply with a stronger charger"
        | "eine kleinere Batterie, wenn ihre Stunden genügen, oder ein Netzteil mit stärkerem Ladegerät",
    measure:
        "The charging current an hour after mains is back, and the battery's voltage the next day."
        | "Den Ladestrom eine Stunde nach Netzwiederkehr, und die Spannung der Batterie am nächsten Tag.",
    english:
        /// # What it checks
        /// The charging current of a supply with battery against what puts four fifths of the capacity back
        /// within 24 hours, with a charge factor of 1.2 for lead-acid (common practice): the usual demand on
        /// chargers of alarm supplies (EN 54-4, from memory, not yet confirmed). A supply that does not
        /// state it is not looked at.
        ///
        /// # Why it matters
        /// After a power cut the second one comes the next evening; a battery that is still half empty is
        /// then a battery of half the hours.
        ///
        /// # Example
        /// 17 Ah with a charger of 0.5 A: 32.6 h.
        ///
        /// # What to do
        /// A smaller battery if its hours suffice, or a supply with a stronger charger.
    german:
        /// # Was geprüft wird
        /// Der Ladestrom eines Netzteils mit Batterie gegen das, was vier Fünftel der Kapazität in 24 Stunden
        /// zurückbringt, mit einem Ladefaktor von 1,2 für Blei (üblich): die gewohnte Forderung an Ladegeräte von
        /// Meldeanlagen (EN 54-4, aus dem Gedächtnis, noch nicht bestätigt). Ein Netzteil, das ihn nicht nennt,
        /// wird nicht betrachtet.
        ///
        /// # Warum es zählt
        /// Nach einem Netzausfall kommt der zweite am nächsten Abend; eine noch halb leere Batterie ist dann eine
        /// Batterie für die halben Stunden.
        ///
        /// # Beispiel
        /// 17 Ah mit einem Ladegerät von 0,5 A: 32,6 h.
        ///
        /// # Was zu tun ist
        /// Eine kleinere Batterie, wenn ihre Stunden genügen, oder ein Netzteil mit stärkerem Ladegerät.
}
