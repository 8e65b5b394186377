//! `escape-advice`

code! {
    "escape-advice"
    title: "Locks on escape routes: rules to look at" | "Schlösser an Fluchtwegen: Regeln, die zu beachten sind",
    short: "look at escape rules" | "Fluchtwegregeln",
    message:
        "locks on escape routes at {doors}: look at {sources}"
        | "Schlösser an Fluchtwegen bei {doors}: siehe {sources}",
    hint: "<{rules}>" | "<{rules}>",
    english:
        /// # What it checks
        /// Nothing: where the plan has locks on escape routes, it lists the published rules of the site's
        /// country that the responsible person will look at. One advice for the whole site.
        ///
        /// # Why it matters
        /// Who plans the lock early with the responsible person does not change it after handover.
        ///
        /// # Example
        /// Two main entrances in a country with European standards: EN 179, EN 1125, EN 13637.
        ///
        /// # What to do
        /// Settle the locks of these doors with the responsible person before ordering. State `country` in
        /// the site file. The text of the rule and the local code hold, not this summary; nothing here is a
        /// certificate.
    german:
        /// # Was geprüft wird
        /// Nichts: Wo der Plan Schlösser an Fluchtwegen hat, nennt er die veröffentlichten Regeln des Landes, auf
        /// die die verantwortliche Person sehen wird. Ein Hinweis für die ganze Anlage.
        ///
        /// # Warum es zählt
        /// Wer das Schloss früh mit der verantwortlichen Person plant, tauscht es nicht nach der Übergabe.
        ///
        /// # Beispiel
        /// Zwei Haupteingänge in einem Land mit europäischen Normen: EN 179, EN 1125, EN 13637.
        ///
        /// # Was zu tun ist
        /// Die Schlösser dieser Türen vor dem Bestellen mit der verantwortlichen Person festlegen. `country` in der
        /// Anlagendatei angeben. Es gelten der Wortlaut der Regel und die örtlichen Vorschriften, nicht diese
        /// Zusammenfassung; nichts hier ist ein Nachweis.
}
