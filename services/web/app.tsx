import { render } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { ErrorBoundary, LocationProvider, Route, Router, useLocation } from 'preact-iso';
import { mayDo } from './access/may.js';
import { followMe, useMe } from './access/me.js';
import { NotYourPage } from './access/only-who-may.js';
import { pageAsks } from './access/page-asks.js';
import { keepAhead } from './api/ahead.js';
import { ask } from './api/client.js';
import { keepSending } from './api/outbox.js';
import { AT_HOME, BEDS, LOOKS, todayIn } from './beds/questions.js';
import { hearOffer } from './device/install.js';
import { keepPage } from './device/worker-life.js';
import { Button, ButtonLink } from './parts/button.js';
import { useFirstZone } from './parts/first-zone.js';
import { useHeard } from './parts/heard.js';
import { keepLook } from './parts/look.js';
import { Title } from './parts/title.js';
import { Device, ROUTES, SignIn } from './routes.js';
import { Shell } from './shell.js';
import './style/tokens.css';
import './style/base.css';
import './style/shell.css';
import './style/parts.css';
import { chooseLanguage, firstLanguage, language, languageChanged } from './words/language.js';
import { say } from './words/say.js';

function App() {
  const [broken, setBroken] = useState<string>();
  const tongue = useHeard(languageChanged, language);
  const clock = useFirstZone();
  return (
    <LocationProvider>
      <Shell key={`${tongue} ${clock}`}>
        {broken === undefined ? (
          <ErrorBoundary onError={(error) => setBroken(String(error))}>
            <Pages />
          </ErrorBoundary>
        ) : (
          <Broken what={broken} />
        )}
      </Shell>
    </LocationProvider>
  );
}

/** The beds are asked for while the page is still being made: on a slow phone that is half a second. */
function askAhead(): void {
  if (!AT_HOME.has(location.pathname)) return;
  const language = firstLanguage();
  const headers = { 'accept-language': language };
  for (const path of [todayIn(language), BEDS, LOOKS]) keepAhead(path, ask(path, { headers }));
}

function Pages() {
  const me = useMe();
  const { path } = useLocation();
  // While the first area is fetched; later the one before it stays in sight.
  const [isOpening, setOpening] = useState(false);
  const wasOpened = useRef(false);
  if (me?.isIn === false) return <BeforeSigningIn />;
  const asks = pageAsks(path);
  if (asks && !mayDo(me, asks.action, asks.bed)) return <NotYourPage {...asks} />;
  return (
    <>
      {isOpening ? <p role="status">{say('app.opening')}</p> : null}
      <Router
        onRouteChange={() => scrollTo(0, 0)}
        onLoadStart={() => setOpening(!wasOpened.current)}
        onLoadEnd={() => {
          wasOpened.current = true;
          setOpening(false);
        }}
      >
        {ROUTES.map(([path, page]) => (
          <Route key={path} path={path} component={page} />
        ))}
        <Route default component={Missing} />
      </Router>
    </>
  );
}

/** Whoever signs in reads that in their own language. */
function BeforeSigningIn() {
  return (
    <Router>
      <Route path="/settings/device" component={Device} />
      <Route default component={SignIn} />
    </Router>
  );
}

function Missing() {
  return (
    <>
      <Title>{say('app.missingTitle')}</Title>
      <p>{say('app.missing')}</p>
      <div class="buttons">
        <ButtonLink href="/beds">{say('parts.toBeds')}</ButtonLink>
      </div>
    </>
  );
}

function Broken({ what }: { what: string }) {
  return (
    <>
      <Title>{say('app.brokenTitle')}</Title>
      <p>{say('app.broken', { what })}</p>
      <Button onPress={() => location.reload()}>{say('app.loadAgain')}</Button>
    </>
  );
}

askAhead();
keepLook();
hearOffer();
chooseLanguage(firstLanguage())
  .catch(() => undefined)
  .finally(() => {
    const page = document.getElementById('page');
    // What stood there until now is no part of it.
    page?.replaceChildren();
    if (page) render(<App />, page);
    followMe();
    keepSending();
    keepPage();
  });
