//! Drawings as SVG.

use evenshod::chart::{Align, Class, Drawing, Shape, svg_inside};

#[test]
fn every_text_is_escaped_and_every_shape_written() {
    let drawing = Drawing {
        title: "5 < 6 & \"7\"".to_owned(),
        description: "<script>alert(1)</script>".to_owned(),
        shapes: vec![
            Shape::Rect {
                x: 0.0,
                y: 1.0,
                width: 2.0,
                height: 3.456,
                class: Class::Stretch,
                band: Some(4),
            },
            Shape::Line {
                x1: 0.0,
                y1: 0.0,
                x2: 1.0,
                y2: 0.5,
                class: Class::Tick,
            },
            Shape::Path {
                d: "M0,0 h1".to_owned(),
                class: Class::Plumb,
            },
            Shape::Text {
                x: 1.0,
                y: 2.0,
                align: Align::End,
                text: "<b>".to_owned(),
                class: Class::Label,
            },
        ],
        ..Drawing::default()
    };
    let expect = concat!(
        r#"<title id="t">5 &lt; 6 &amp; &quot;7&quot;</title>"#,
        r#"<desc id="d">&lt;script&gt;alert(1)&lt;/script&gt;</desc>"#,
        r#"<rect x="0.00" y="1.00" width="2.00" height="3.46" class="stretch" data-band="4"></rect>"#,
        r#"<line x1="0.00" y1="0.00" x2="1.00" y2="0.50" class="tick"></line>"#,
        r#"<path d="M0,0 h1" class="plumb" fill-rule="evenodd"></path>"#,
        r#"<text x="1.00" y="2.00" text-anchor="end" class="label">&lt;b&gt;</text>"#,
    );
    assert_eq!(svg_inside(&drawing, "t", "d"), expect);
}
