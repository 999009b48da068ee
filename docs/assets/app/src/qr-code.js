/** The QR code itself, as SVG text: a script of its own (qr-code.js), because of its library. Always black on white, whatever
 * the theme, because readers of codes need it so. */

import qrcode from "qrcode-generator";

window.handToDiscQrCode = (text) => {
  const code = qrcode(0, "L");
  code.addData(text, "Byte");
  code.make();
  const count = code.getModuleCount();
  const quiet = 4;
  let path = "";
  for (let row = 0; row < count; row += 1) {
    for (let column = 0; column < count; column += 1) {
      if (code.isDark(row, column)) path += `M${column + quiet} ${row + quiet}h1v1h-1z`;
    }
  }
  const size = count + 2 * quiet;
  return (
    `<svg class="hd-qr" viewBox="0 0 ${size} ${size}" role="img" aria-label="QR code of this page's link" shape-rendering="crispEdges">` +
    `<path fill="#fff" d="M0 0h${size}v${size}H0z"/><path fill="#000" d="${path}"/></svg>`
  );
};
