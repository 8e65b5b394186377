//! `signal-ripple`

code! {
    "signal-ripple"
    title: "The level varies too much within the band of a signal" | "Der Pegel schwankt im Band eines Signals zu stark",
    short: "signal ripple" | "Pegel schwankt",
    message:
        "the {band} from {caller} comes unevenly to {element}: its strength varies by {value} ({lengths}); {limit} are allowed"
        | "{band} von {caller} kommt an {element} ungleichmäßig an: Die Stärke schwankt um {value} ({lengths}); erlaubt sind {limit}",
    hint:
        "a terminator on every open end, or a shorter or better cable"
        | "ein Abschluss an jedem offenen Ende, oder eine kürzere oder bessere Leitung",
    measure:
        "With the power off, look for a terminator at every end; then the capacitance of the run with its far end open."
        | "Spannungsfrei an jedem Ende nach dem Abschluss sehen; dann die Kapazität des Strangs bei offenem fernem Ende.",
    english:
        /// # What it checks
        /// In a band for which the family states a greatest ripple, the difference between the highest and the lowest level at
        /// every station. What is due to a single dip is `signal-notch`.
        ///
        /// # Why it matters
        /// A level that falls or waves across the band blurs a picture and dulls speech, and the receiver can set its gain
        /// for one frequency only.
        ///
        /// # Example
        /// A-504 has 8.1 dB between the highest and the lowest level of the picture; the family allows 6 dB.
        ///
        /// # What to do
        /// A terminator on every open end, where the family has one; a shorter or better cable; feed chokes of more inductance
        /// where the lower end falls.
    german:
        /// # Was geprüft wird
        /// In einem Band, für das die Gerätefamilie eine größte Schwankung nennt: den Unterschied zwischen höchstem
        /// und niedrigstem Pegel an jeder Station. Was von einem einzelnen Einbruch kommt, ist `signal-notch`.
        ///
        /// # Warum es zählt
        /// Ein Pegel, der über das Band fällt oder wogt, macht ein Bild unscharf und Sprache dumpf, und der
        /// Empfänger kann seine Verstärkung nur für eine Frequenz einstellen.
        ///
        /// # Beispiel
        /// A-504 hat 8,1 dB zwischen höchstem und niedrigstem Pegel des Bilds; die Familie erlaubt 6 dB.
        ///
        /// # Was zu tun ist
        /// Ein Abschluss an jedem offenen Ende, wo die Familie einen hat; eine kürzere oder bessere Leitung;
        /// Speisedrosseln mit mehr Induktivität, wo das untere Ende abfällt.
}
