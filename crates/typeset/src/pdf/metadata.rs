//! Metadata as XMP (ISO 16684-1): title, language, and which standards the file keeps to.

use super::file::hexadecimal;
use latchline_scene::svg::xml_text;

/// What a file says of itself.
pub(crate) struct Facts<'f> {
    /// Title.
    pub(crate) title: &'f str,
    /// Where it is from.
    pub(crate) description: &'f str,
    /// Language by its code.
    pub(crate) language: &'f str,
    /// Date, YYYY-MM-DD.
    pub(crate) date: Option<&'f str>,
    /// 16 bytes that name the content.
    pub(crate) id: &'f [u8; 16],
}

/// Who made the file.
pub(crate) const CREATOR: &str = "Latchline";

/// The packet.
pub(crate) fn packet(facts: &Facts<'_>) -> String {
    let (title, description) = (xml_text(facts.title), xml_text(facts.description));
    let language = facts.language;
    let id = hexadecimal(facts.id);
    let dates = facts.date.map_or_else(String::new, |date| {
        format!(
            "<xmp:CreateDate>{date}T00:00:00Z</xmp:CreateDate><xmp:ModifyDate>{date}T00:00:00Z</xmp:ModifyDate>\
             <xmp:MetadataDate>{date}T00:00:00Z</xmp:MetadataDate>"
        )
    });
    // PDF/A-2 (ISO 19005-2) wants every schema described that it does not know itself; PDF/UA's is one.
    let archival = if facts.date.is_some() {
        "<pdfaid:part>2</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance>\
         <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\
         <pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>\
         <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\
         <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix><pdfaSchema:property><rdf:Seq>\
         <rdf:li rdf:parseType=\"Resource\"><pdfaProperty:name>part</pdfaProperty:name>\
         <pdfaProperty:valueType>Integer</pdfaProperty:valueType>\
         <pdfaProperty:category>internal</pdfaProperty:category>\
         <pdfaProperty:description>Part of ISO 14289 that the file keeps to</pdfaProperty:description>\
         </rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas>"
    } else {
        ""
    };
    format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
         xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:xmpMM=\"http://ns.adobe.com/xap/1.0/mm/\" \
         xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\" \
         xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\" \
         xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\" \
         xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n\
         <dc:format>application/pdf</dc:format>\
         <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{title}</rdf:li></rdf:Alt></dc:title>\
         <dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">{description}</rdf:li></rdf:Alt></dc:description>\
         <dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>\
         <xmp:CreatorTool>{CREATOR}</xmp:CreatorTool>{dates}\
         <xmpMM:DocumentID>uuid:{id}</xmpMM:DocumentID><xmpMM:InstanceID>uuid:{id}</xmpMM:InstanceID>\
         <pdfuaid:part>1</pdfuaid:part>{archival}\n\
         </rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>"
    )
}
