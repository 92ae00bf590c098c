import { useEffect, useState } from 'react';

/** Blank modules around the code, as ISO/IEC 18004 asks. */
const QUIET = 4;

/** A link as a QR code, for the phone of somebody who stands beside you. Black on white in both themes, so that every phone reads it. */
export function QrCode({ text, label }: { readonly text: string; readonly label: string }) {
  const [code, setCode] = useState<{ readonly side: number; readonly dark: string }>();
  useEffect(() => {
    let here = true;
    void import('qrcode').then(({ create }) => {
      const { size, data } = create(text, { errorCorrectionLevel: 'M' }).modules;
      let dark = '';
      for (let row = 0; row < size; row++)
        for (let column = 0; column < size; column++)
          if (data[row * size + column]) dark += `M${column + QUIET} ${row + QUIET}h1v1h-1z`;
      if (here) setCode({ side: size + 2 * QUIET, dark });
    });
    return () => {
      here = false;
    };
  }, [text]);
  if (!code) return null;
  return (
    <svg className="qr-code" viewBox={`0 0 ${code.side} ${code.side}`} role="img" aria-label={label}>
      <rect width="100%" height="100%" fill="#fff" />
      <path d={code.dark} fill="#000" shapeRendering="crispEdges" />
    </svg>
  );
}
