//! `supply-shorts-signal`

code! {
    "supply-shorts-signal"
    title: "Feeds that short the signal" | "Speisungen, die das Signal kurzschließen",
    short: "feed shorts the signal" | "schließt Signal kurz",
    message:
        "the {count:feed|feeds} of {feeds} swallow the signal<: what is below {value} is lost, and it begins at {limit}>"
        | "{count:Speisung|Speisungen} von {feeds} schließen das Signal kurz<: unter {value}, es beginnt bei {limit}>",
    hint:
        "feed through a choke, or separate the parts by isolating boxes"
        | "über eine Drossel speisen, oder die Teile durch trennende Verteiler trennen",
    measure:
        "Take the runs off all supplies but one for a moment: if speech returns, the others short it. A DC meter does not show it."
        | "Kurz die Stränge aller Netzteile bis auf eines abklemmen: Kommt die Sprache wieder, schließen die anderen sie kurz. Ein Gleichspannungsmesser zeigt es nicht.",
    english:
        /// # What it checks
        /// In a family that states bands for its signals, the low corner of the feed chokes of all supplies and boxes that feed
        /// one network: with n equal chokes of L in parallel and the resistance R of source and receiver in parallel it is
        /// n R / (2 π L). It must lie below the lowest band. A feed without a choke (`feed_choke = "0 mH"`) has no corner: it shorts every
        /// signal.
        ///
        /// # Why it matters
        /// A supply is a capacitor for signals. Only its choke keeps it from swallowing them, and every further supply on
        /// the same pairs weakens the others' chokes.
        ///
        /// # Example
        /// Three feeds of 1 mH on a pair of 100 ohm at both ends cut off below 24 kHz; speech begins at 300 Hz.
        ///
        /// # What to do
        /// Take the family's own supply, or put a choke into its output; separate the parts of the building by isolating boxes.
    german:
        /// # Was geprüft wird
        /// In einer Gerätefamilie, die Bänder für ihre Signale nennt: die untere Grenzfrequenz der Speisedrosseln
        /// aller Netzteile und Verteiler, die ein Netz speisen. Bei n gleichen Drosseln L parallel und dem
        /// Widerstand R von Quelle und Empfänger parallel ist sie n R / (2 π L). Sie muss unter dem untersten Band
        /// liegen. Eine Speisung ohne Drossel (`feed_choke = "0 mH"`) hat keine Grenzfrequenz: Sie schließt jedes
        /// Signal kurz.
        ///
        /// # Warum es zählt
        /// Ein Netzteil ist für Signale ein Kondensator. Nur seine Drossel hält es davon ab, sie zu verschlucken,
        /// und jedes weitere Netzteil an denselben Paaren schwächt die Drosseln der anderen.
        ///
        /// # Beispiel
        /// Drei Speisungen mit 1 mH an einem Paar mit 100 Ω an beiden Enden schneiden unter 24 kHz ab; Sprache
        /// beginnt bei 300 Hz.
        ///
        /// # Was zu tun ist
        /// Das Netzteil der Familie nehmen, oder eine Drossel in seinen Ausgang setzen; die Teile des Gebäudes
        /// durch trennende Verteiler trennen.
}
