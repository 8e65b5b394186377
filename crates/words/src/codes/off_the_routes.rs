//! `off-the-routes`

code! {
    "off-the-routes"
    title: "No route leads there from the mains" | "Vom Netzanschluss führt kein Weg dorthin",
    message:
        "\"{element}\" stands at \"{place}\"<, with {others:other|others} beyond it>, to which no route leads from any place with mains"
        | "„{element}“ steht bei „{place}“<, mit {others:weiteren|weiteren} dahinter>, wohin von keinem Ort mit Netzanschluss ein Weg führt",
    hint: "add the route, or correct the place" | "den Weg ergänzen oder den Ort berichtigen",
    english:
        /// Cables follow the routes of the survey, from a place with mains. This one cannot be reached.
        ///
        /// Add the route that is missing, or correct the name of a place.
    german:
        /// Leitungen folgen den Wegen der Aufnahme, ab einem Ort mit Netzanschluss. Dieser ist nicht erreichbar.
        ///
        /// Den fehlenden Weg ergänzen oder den Namen eines Orts berichtigen.
}
