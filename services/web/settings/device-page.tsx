/** Language, look and name on this device: they change nothing elsewhere. */
import { useState } from 'preact/hooks';
import type { Language } from '../../core/model/languages.js';
import { Choice, TextField } from '../parts/field.js';
import { chooseLook, LOOKS, type Look, lookNow } from '../parts/look.js';
import { personNow, rememberPerson } from '../parts/person.js';
import { Title } from '../parts/title.js';
import { chooseLanguage, isDraft, language, PAGE_LANGUAGES } from '../words/language.js';
import { ownName } from '../words/own-names.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import './settings.css';

export default function DevicePage() {
  const [look, setLook] = useState<Look>(lookNow());
  const [name, setName] = useState(personNow());
  return (
    <>
      <Back />
      <Title>{say('settings.device')}</Title>
      <p>{say('settings.deviceNote')}</p>
      <Choice
        label={say('settings.language')}
        value={language()}
        onChange={(code) => void chooseLanguage(code as Language)}
        options={PAGE_LANGUAGES.map((code) => ({ value: code, label: languageLabel(code) }))}
      />
      <Choice
        label={say('settings.look')}
        value={look}
        onChange={(chosen) => {
          chooseLook(chosen as Look);
          setLook(chosen as Look);
        }}
        options={LOOKS.map((one) => ({ value: one, label: say(`settings.look_${one}`) }))}
      />
      <TextField
        label={say('settings.deviceName')}
        hint={say('settings.byHint')}
        value={name}
        onChange={(typed) => {
          setName(typed);
          rememberPerson(typed);
        }}
        autocomplete="name"
      />
    </>
  );
}

function languageLabel(code: Language): string {
  const own = ownName(code);
  return isDraft(code) ? say('settings.languageDraft', { language: own }) : own;
}
