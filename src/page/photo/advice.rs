use leptos::prelude::*;

/// How to take a good photo, drawn and in words.
pub(super) fn good_photo() -> AnyView {
    view! {
        <div class="photo-advice">
            <svg viewBox="0 0 240 150" role="img" aria-labelledby="good-photo">
                <title id="good-photo">
                    "Left: from above, all four corners of the sheet are in the photo and the shoe lies in its middle. Right: the telephone is held level, straight above it."
                </title>
                <rect class="bench" x="4" y="4" width="104" height="142" />
                <rect class="paper" x="16" y="14" width="80" height="113" />
                <path class="shoe-line" d="M36 98 C28 62 34 38 56 38 C78 38 84 62 76 98 L67 98 C72 66 70 48 56 48 C42 48 40 66 45 98 Z" />
                <path class="corner-mark" d="M12 22V10H24 M88 10H100V22 M100 119V131H88 M24 131H12V119" />
                <path class="bench-line" d="M124 128H236" />
                <path class="paper-line" d="M140 125H220" />
                <rect class="shoe-side" x="160" y="119" width="40" height="5" />
                <rect class="camera" x="162" y="22" width="36" height="6" rx="2" />
                <path class="sight" d="M180 30L140 124 M180 30L220 124" />
                <path class="upright" d="M180 34V114" />
            </svg>
            <ul>
                <li>"Lay the cold shoe flat in the middle of a white sheet, on a darker bench."</li>
                <li>"Hold the camera level above it, so near that the sheet fills most of the photo, with all four corners in it."</li>
                <li>"Light from a window or lamp on one side; no hard shadow on the edge of the shoe, no flash."</li>
            </ul>
        </div>
    }
    .into_any()
}
