//! `supply-count-exceeded`

code! {
    "supply-count-exceeded"
    title: "More stations than the datasheet allows on one supply" | "Mehr Stationen, als das Datenblatt an einem Netzteil erlaubt",
    short: "too many stations" | "zu viele Stationen",
    message:
        "{element} carries more stations than its datasheet allows: {models}; their shares add up to {value}, {limit} being full"
        | "{element} speist mehr Stationen, als das Datenblatt erlaubt: {models}; ihre Anteile ergeben {value}, bei {limit} ist es voll",
    hint:
        "share the stations out over another supply, or take a lighter model"
        | "die Stationen auf ein weiteres Netzteil verteilen, oder ein leichteres Modell nehmen",
    measure:
        "The supply's current in standby and with as many calls as the family permits; the count does not show on a meter."
        | "Den Strom des Netzteils in Ruhe und bei so vielen Rufen, wie die Familie zulässt; die Anzahl selbst zeigt kein Messgerät.",
    english:
        /// # What it checks
        /// Datasheet counts of the kind "18 of this model or 54 of that one on one supply". For a mix the
        /// shares are added: 9 of 18 and 27 of 54 is one whole supply.
        ///
        /// # Why it matters
        /// The rule of shares is common practice, not physics: it is what a supplier's hotline goes by. Current, voltage and
        /// start-up are judged beside it, and can be stricter: a count that has the ringing current of one
        /// call in it is optimistic for a mix in which several ring.
        ///
        /// # Example
        /// 10 of a model of which a supply carries 18, and 27 of one of which it carries 54: 1.06 supplies.
        ///
        /// # What to do
        /// Share the stations out over another supply, or take a lighter model for some dwellings.
    german:
        /// # Was geprüft wird
        /// Angaben in Datenblättern der Art „18 von diesem Modell oder 54 von jenem an einem Netzteil“. Bei einer
        /// Mischung werden die Anteile addiert: 9 von 18 und 27 von 54 sind ein ganzes Netzteil.
        ///
        /// # Warum es zählt
        /// Die Regel der Anteile ist übliche Praxis, keine Physik: Nach ihr richtet sich die Hotline eines
        /// Lieferanten. Strom, Spannung und Anlauf werden daneben beurteilt und können strenger sein: Eine Anzahl,
        /// in der der Rufstrom eines Rufs steckt, ist optimistisch für eine Mischung, in der mehrere läuten.
        ///
        /// # Beispiel
        /// 10 eines Modells, von dem ein Netzteil 18 trägt, und 27 von einem, von dem es 54 trägt: 1,06 Netzteile.
        ///
        /// # Was zu tun ist
        /// Die Stationen auf ein weiteres Netzteil verteilen, oder für einige Wohnungen ein leichteres Modell
        /// nehmen.
}
