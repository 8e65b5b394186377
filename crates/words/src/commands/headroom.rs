//! `headroom`.

use crate::row::sentences;

sentences! {
    /// What `headroom` says.
    pub enum HeadroomWords<'a> {
        Working:
            "adding to every run and supply, and checking the whole each time"
            | "ergänze jeden Strang und jedes Netzteil und prüfe jedes Mal das Ganze",
        MoreYes { count: usize, model: &'a str, places: &'a str, supplies: &'a str, calls: usize }:
            "Yes: {count} more {model} work here, {places}, on {supplies}, with {calls:call|calls} at once."
            | "Ja: {count} {model} mehr arbeiten hier, {places}, an {supplies}, mit {calls:Ruf|Rufen} gleichzeitig.",
        MoreNo { count: usize, model: &'a str, title: Option<&'a str>, most: usize, places: Option<&'a str> }:
            "No: {count} more {model} do not work here<, the next one fails: {title}>; {most} do<, {places}>."
            | "Nein: {count} {model} mehr arbeiten hier nicht<, das nächste scheitert: {title}>; {most} arbeiten<, {places}>.",
        MoreFailsToday { errors: usize, titles: &'a str, command: &'a str }:
            "No: this site fails as it is ({errors:error|errors}: {titles}), and nothing can be added before that is mended: {command}."
            | "Nein: Diese Anlage fällt durch, wie sie ist ({errors:Fehler|Fehler}: {titles}), und vorher lässt sich nichts ergänzen: {command}.",
        FailsToday { errors: usize, titles: &'a str, command: &'a str }:
            "Nothing can be added today: this site fails as it is ({errors:error|errors}: {titles}). Mend that first: {command}."
            | "Heute lässt sich nichts ergänzen: Diese Anlage fällt durch, wie sie ist ({errors:Fehler|Fehler}: {titles}). Zuerst das beheben: {command}.",
        OnMains { supply: &'a str, model: &'a str }: "{supply} ({model}, on mains)" | "{supply} ({model}, am Netz)",
        OnMainsAndBattery { supply: &'a str, model: &'a str }:
            "{supply} ({model}, on mains and to the battery's end)"
            | "{supply} ({model}, am Netz und bis zum Ende der Batterie)",
        MoreAdded:
            "They were added there in a copy of the site, and the whole was checked. Each stands as far from the one before as stations of that run do on average; whoever calls the last dwelling there calls them too. If they will be farther apart, add them to the site file and check it."
            | "Sie wurden dort in einer Kopie der Anlage ergänzt, und das Ganze wurde geprüft. Jede ist von der vorigen so weit entfernt wie im Mittel die Stationen des Strangs; wer dort die letzte Wohnung ruft, ruft auch sie. Liegen sie weiter auseinander, in die Anlagendatei eintragen und prüfen.",
        MoreWarns { count: usize, supply: Option<&'a str>, titles: &'a str }:
            "{count} more< on {supply}> bring a warning that is not there today: {titles}."
            | "{count} weitere< an {supply}> bringen eine Warnung, die heute nicht da ist: {titles}.",
        MoreNotJudged { codes: &'a str }:
            "Not judged on this site, as it is and with more: {codes}."
            | "An dieser Anlage nicht beurteilt, wie sie ist und mit mehr: {codes}.",
        MoreWhichModel { model: &'a str }:
            "{model} is the model that most dwellings here have; another: --station MODEL."
            | "{model} ist das Modell der meisten Wohnungen hier; ein anderes: --station MODELL.",
        MoreCaution: "A calculation, not a certificate." | "Eine Berechnung, kein Nachweis.",
        NothingThere: "no run has stations yet" | "noch hat kein Strang Stationen",
        Metres: "metres" | "Meter",
        First { model: &'a str, of: &'a str }:
            "Room for more {model} (the model that most dwellings here have), at least: {of}."
            | "Platz für weitere {model} (das Modell der meisten Wohnungen hier), mindestens: {of}.",
        FirstEach { model: &'a str, of: &'a str }:
            "Room for more {model} (the model that most dwellings here have), on each supply alone, at least: {of}. On all together: --more NUMBER."
            | "Platz für weitere {model} (das Modell der meisten Wohnungen hier), an jedem Netzteil für sich, mindestens: {of}. An allen zusammen: --more ANZAHL.",
        NotOneMore { model: &'a str, of: &'a str }:
            "Not one more {model}, the model that most dwellings here have: {of}."
            | "Kein {model} mehr, das Modell der meisten Wohnungen hier: {of}.",
        NoneOn { supply: &'a str, title: &'a str }: "none on {supply} ({title})" | "keines an {supply} ({title})",
        Title:
            "More stations of one model, or more metres, on each supply and run:"
            | "Weitere Stationen eines Modells, oder weitere Meter, an jedem Netzteil und Strang:",
        FailsAsAccepted { errors: usize, titles: &'a str }:
            "This site has {errors:error that was accepted|errors that were accepted} ({titles}): the figures say how much more brings no further error, not that it works."
            | "Diese Anlage hat {errors:Fehler, der hingenommen ist|Fehler, die hingenommen sind} ({titles}): Die Zahlen sagen, wie viel mehr keinen weiteren Fehler bringt, nicht dass sie arbeitet.",
        Supplies:
            "They were added and checked in three ways, and the best counts: port by port; one to each port in turn; in turn, but passing over what is full. At least this many more work on a whole supply, model by model:"
            | "Sie wurden auf drei Weisen ergänzt und geprüft, und die beste zählt: Abgang für Abgang; reihum je Abgang eine; reihum, aber ohne das, was voll ist. Mindestens so viele mehr arbeiten an einem ganzen Netzteil, Modell für Modell:",
        Placed { count: usize, at: &'a str }: "{count} at {at}" | "{count} an {at}",
        PlacedBoth { one: &'a str, other: &'a str }: "{one} and {other}" | "{one} und {other}",
        PlacedElsewhere { count: usize, places: usize }:
            "{count} at {places:more place|more places}"
            | "{count} an {places:weiteren Stelle|weiteren Stellen}",
        PlacedOn { count: usize, supply: &'a str, places: &'a str }: "{count} on {supply} ({places})" | "{count} an {supply} ({places})",
        Spread { supply: &'a str, of_models: &'a str }: "{supply}: {of_models}" | same,
        FreePort { ports: &'a str, like: &'a str, cable: &'a str, environment: &'a str, first: &'a str, spacing: &'a str }:
            "At free ports ({ports}) a new run like {like} was assumed: {cable}, {environment}, {first} m to its first station and {spacing} m between stations."
            | "An freien Abgängen ({ports}) ist ein neuer Strang wie {like} angenommen: {cable}, {environment}, {first} m bis zur ersten Station und {spacing} m dazwischen.",
        OneMore { limits: &'a str }: "Why not one more: {limits}." | "Warum nicht eines mehr: {limits}.",
        Spacing:
            "New stations are taken to stand as far apart as those of the run do on average, and on a free port as on a run of the same box. If they will be farther apart, add them to the site file and check it."
            | "Neue Stationen sind im mittleren Abstand der Stationen des Strangs angenommen; an einem freien Abgang wie an einem Strang desselben Verteilers. Liegen sie weiter auseinander, in die Anlagendatei eintragen und prüfen.",
        Alone:
            "Each row holds alone, not together with others: they share one supply. A calculation, not a certificate."
            | "Jede Zeile gilt für sich, nicht mit anderen zusammen: Sie teilen ein Netzteil. Eine Berechnung, kein Nachweis.",
    }
}
